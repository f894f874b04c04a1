#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/document/document.hpp>

namespace ohmwright {

/// An answer that a question of a kit takes.
struct KitChoice {
  std::string id;
  std::string title;
  std::string stands_for;  ///< id of the choice that is built in its place; empty: its own
  std::string note;        ///< what is assumed with it, to be told
};

/// A question of a kit. Its last choice is "unknown".
struct KitQuestion {
  std::string id;
  std::string asks;
  std::vector<KitChoice> choices;
};

/// By id of a question the id of a choice. A question without one counts as answered with "unknown".
using KitAnswers = std::map<std::string, std::string>;

/// What a generic appliance is built from where there is no file of the one at hand: a few questions, and an
/// appliance's file with alternatives in it.
///
/// In that file an object with `"when": {"QUESTION": ["CHOICE", …]}` (or a list of such, of which one must hold) is
/// left out unless the answers are among those; `{"choose": "QUESTION", "CHOICE": …, "otherwise": …}` is replaced by
/// what stands under the answer, or left out; `"choose": "QUESTION is"` chooses by whether the answer was "said" or is
/// "assumed", another standing for it. What the answers leave assumed is written into the file, too. So the program
/// knows no kind by name: the kit does.
class Kit {
 public:
  /// Throws DocumentError for what is no kit.
  explicit Kit(Document document);

  std::span<const KitQuestion> questions() const { return questions_; }

  /// The appliance's file for these answers. Throws InputError for a question or a choice that is not there.
  ValueNode build(const KitAnswers& answers) const;

  /// What the answers leave assumed, one sentence each.
  std::vector<std::string> notes(const KitAnswers& answers) const;

  /// Kind and ratings of a splice, as members of a part.
  const ValueNode& splice() const;

 private:
  const KitChoice& choice(const KitQuestion& question, const KitAnswers& answers) const;

  Document document_;
  std::vector<KitQuestion> questions_;
};

}  // namespace ohmwright
