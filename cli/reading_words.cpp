#include "reading_words.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cli {

namespace {

constexpr std::array circumstances{
    OptionSpec{"--lead-off", "", OHMWRIGHT_TEXT("Read with at least one lead of the part lifted"), {}},
    OptionSpec{"--in-circuit", "", OHMWRIGHT_TEXT("Read with the part still connected"), {}},
    OptionSpec{"--wet", "", OHMWRIGHT_TEXT("Read as found, wet"), {}},
    OptionSpec{"--dry", "", OHMWRIGHT_TEXT("Read after drying"), {}},
    OptionSpec{"--unplugged", "", OHMWRIGHT_TEXT("The appliance was unplugged"), {}},
    OptionSpec{"--proved-dead", "", OHMWRIGHT_TEXT("The points read near zero volts before"), {}},
    OptionSpec{"--live", "", OHMWRIGHT_TEXT("The appliance was plugged in"), {}},
    OptionSpec{"--range", "VALUE", OHMWRIGHT_TEXT("The range that was set, such as 60k"), {}},
};

const OptionSpec* circumstance_named(std::string_view option) {
  for (const OptionSpec& circumstance : circumstances)
    if (circumstance.name.substr(2) == option) return &circumstance;
  return nullptr;
}

const ConditionDescriptor* condition_for(const Descriptor& descriptor, std::string_view option) {
  for (const ConditionDescriptor& condition : descriptor.conditions)
    if (condition.option == option || condition.id == option) return &condition;
  return nullptr;
}

/// Flags of which a reading can have only one.
constexpr std::array<std::pair<std::string_view, std::string_view>, 4> contradictions{
    {{"lead-off", "in-circuit"}, {"wet", "dry"}, {"live", "unplugged"}, {"live", "proved-dead"}}};

bool contradict(std::string_view a, std::string_view b) {
  return std::any_of(contradictions.begin(), contradictions.end(), [&](const auto& pair) {
    return (pair.first == a && pair.second == b) || (pair.first == b && pair.second == a);
  });
}

bool is_option(std::string_view word) { return word.size() > 2 && word.substr(0, 2) == "--"; }

class WordSorter {
 public:
  WordSorter(std::span<const std::string> words, const Descriptor& descriptor)
      : words_(words), descriptor_(descriptor) {}

  std::vector<ReadingWords> sort() {
    while (next_ < words_.size()) {
      if (is_option(words_[next_]))
        take_option();
      else
        take_reading();
    }
    for (ReadingWords& reading : readings_) add_said_for_all(reading);
    return std::move(readings_);
  }

 private:
  void take_option() {
    std::string_view word = std::string_view(words_[next_++]).substr(2);
    const std::size_t equals = word.find('=');
    CircumstanceWord circumstance{std::string(word.substr(0, equals)), {}};
    const ConditionDescriptor* condition = condition_for(descriptor_, circumstance.option);
    const OptionSpec* option = circumstance_named(circumstance.option);
    if (condition == nullptr && option == nullptr) refuse_option(circumstance.option);
    const bool takes_value = condition != nullptr || !option->value.empty();
    if (takes_value) {
      circumstance.value =
          equals != std::string_view::npos ? std::string(word.substr(equals + 1)) : next_value(circumstance.option);
      join_unit(circumstance.value, condition != nullptr ? condition->dimension : descriptor_.measurands[0].dimension);
    }
    if (readings_.empty()) {
      refuse_second_word(said_for_all_, circumstance);
      said_for_all_.push_back(std::move(circumstance));
    } else {
      circumstance.said_for = group_;
      say_for_group(circumstance, condition != nullptr);
    }
    group_is_closed_ = true;
  }

  std::string next_value(const std::string& option) {
    if (next_ == words_.size()) throw InputError("--" + option + " needs a value");
    return words_[next_++];
  }

  static void refuse_second_word(const std::vector<CircumstanceWord>& said, const CircumstanceWord& circumstance) {
    for (const CircumstanceWord& other : said) {
      if (other.option == circumstance.option)
        throw InputError("--" + circumstance.option + " is said twice for the same readings; leave one out");
      if (contradict(other.option, circumstance.option))
        throw InputError("--" + other.option + " and --" + circumstance.option +
                         " are both said of the same readings; write each after the readings it holds for");
    }
  }

  void say_for_group(const CircumstanceWord& circumstance, bool is_condition) {
    for (const CircumstanceWord& said : said_for_all_)
      if (said.option == circumstance.option)
        throw InputError("--" + circumstance.option +
                         " stands before the first reading (for all of them) and again after one; write it after each "
                         "group of readings, or with the reading itself: 33.1k@0C 11.0k@23C");
    for (const CircumstanceWord& said : said_for_all_)
      if (contradict(said.option, circumstance.option)) refuse_second_word(said_for_all_, circumstance);
    for (ReadingWords& reading : readings_) {
      if (reading.group == group_) {
        refuse_second_word(reading.circumstances, circumstance);
        reading.circumstances.push_back(circumstance);
      } else if (is_condition && !is_said(reading, circumstance.option)) {
        reading.circumstances.push_back(circumstance);
      }
    }
  }

  static bool is_said(const ReadingWords& reading, const std::string& option) {
    return std::any_of(reading.circumstances.begin(), reading.circumstances.end(),
                       [&](const CircumstanceWord& said) { return said.option == option; });
  }

  void take_reading() {
    if (group_is_closed_) ++group_;
    group_is_closed_ = false;
    std::string word = words_[next_++];
    std::uint16_t measurand = 0;
    const std::size_t equals = word.find('=');
    if (equals != std::string::npos) {
      measurand = measurand_named(word.substr(0, equals));
      word.erase(0, equals + 1);
    }
    const MeasurandDescriptor& descriptor = descriptor_.measurands[measurand];
    std::vector<CircumstanceWord> within;
    const std::size_t at = word.find('@');
    if (at != std::string::npos) {
      within.push_back({std::string(first_condition_option()), word.substr(at + 1), true});
      word.erase(at);
    }
    join_unit(word, descriptor.dimension);
    add_value(std::string(descriptor.id), std::move(word), std::move(within));
  }

  std::string_view first_condition_option() const {
    if (descriptor_.conditions.empty())
      throw InputError("a " + std::string(descriptor_.id) + " has no condition that \"@\" could state");
    return descriptor_.conditions[0].option;
  }

  void add_value(std::string measurand, std::string value, std::vector<CircumstanceWord> within) {
    if (within.empty()) {
      for (ReadingWords& reading : readings_)
        if (reading.group == group_ && reading.measurand == measurand && reading.circumstances.empty()) {
          reading.values.push_back(std::move(value));
          return;
        }
    }
    readings_.push_back({std::move(measurand), {std::move(value)}, std::move(within), group_});
  }

  /// `11.0 kohm`, `--at 23 C`: a word that is nothing but a unit belongs to the number before it.
  void join_unit(std::string& value, Dimension dimension) {
    if (value.empty() || next_ == words_.size()) return;
    const bool ends_in_digit = value.back() >= '0' && value.back() <= '9';
    if (ends_in_digit && Unit::named(words_[next_], dimension)) value += " " + words_[next_++];
  }

  std::uint16_t measurand_named(const std::string& name) const {
    const std::uint16_t index = index_of(descriptor_.measurands, name);
    if (index != not_found) return index;
    std::vector<std::string> known;
    std::string list;
    for (const MeasurandDescriptor& measurand : descriptor_.measurands) {
      known.emplace_back(measurand.id);
      list += (list.empty() ? "" : ", ") + std::string(measurand.id);
    }
    throw InputError("a " + std::string(descriptor_.id) + " has no \"" + name + "\" to read" +
                     did_you_mean(name, known) + "; it has: " + list);
  }

  [[noreturn]] void refuse_option(const std::string& option) const {
    std::vector<std::string> names;
    for (const OptionSpec& circumstance : circumstances) names.emplace_back(circumstance.name);
    for (const ConditionDescriptor& condition : descriptor_.conditions)
      names.push_back("--" + std::string(condition.option));
    throw InputError("unknown option \"--" + option + "\"" + did_you_mean("--" + option, names) +
                     "; see: ohmwright check --help");
  }

  void add_said_for_all(ReadingWords& reading) const {
    for (const CircumstanceWord& circumstance : said_for_all_) {
      if (!is_said(reading, circumstance.option)) reading.circumstances.push_back(circumstance);
    }
  }

  std::span<const std::string> words_;
  const Descriptor& descriptor_;
  std::size_t next_ = 0;
  std::vector<ReadingWords> readings_;
  std::vector<CircumstanceWord> said_for_all_;
  int group_ = 0;
  bool group_is_closed_ = false;
};

}  // namespace

std::span<const OptionSpec> circumstance_options() { return circumstances; }

std::vector<ReadingWords> sort_reading_words(std::span<const std::string> words, const Descriptor& descriptor) {
  return WordSorter(words, descriptor).sort();
}

}  // namespace ohmwright::cli
