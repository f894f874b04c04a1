#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

template <class Word>
std::string one_of_words(std::span<const Word> words) {
  std::string text;
  for (std::size_t place = 0; place < words.size(); ++place) {
    if (place > 0) text += place + 1 == words.size() ? " or " : ", ";
    text += ohmwright::quoted(words[place]);
  }
  return text;
}

template <class Word>
std::string listed_words(std::span<const Word> words) {
  std::string text;
  for (const Word& word : words) text += (text.empty() ? "" : ", ") + printable(word);
  return text;
}

}  // namespace

std::string one_of(std::span<const std::string> words) { return one_of_words(words); }
std::string one_of(std::span<const std::string_view> words) { return one_of_words(words); }
std::string listed(std::span<const std::string> words) { return listed_words(words); }
std::string listed(std::span<const std::string_view> words) { return listed_words(words); }

}  // namespace ohmwright
