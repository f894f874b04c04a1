#pragma once

#include <span>
#include <string>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// What `ohmwright --help` shows: the job, the verbs, an example.
std::string program_help(std::span<const VerbSpec> verbs, const Sentences& sentences, const PageStyle& style);

/// What `ohmwright VERB --help` shows, made from the same table that the parser reads.
std::string verb_help(const VerbSpec& verb, const Sentences& sentences, const PageStyle& style);

/// What `ohmwright VERB ACTION --help` shows: what it does, its own options, an example.
std::string action_help(const VerbSpec& verb, const ActionSpec& action, const Sentences& sentences,
                        const PageStyle& style);

/// The action that the words name, or null: then the whole verb is helped with.
const ActionSpec* action_of(const VerbSpec& verb, const Arguments& arguments);

}  // namespace ohmwright::cli
