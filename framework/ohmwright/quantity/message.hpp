#pragma once

/// Marks an English sentence for the translators' catalogue; the sentence is looked up when it is printed (`report/`),
/// so that results can be kept, compared and sent to another process without any wording in them.
#define OHMWRIGHT_TEXT(sentence) sentence
