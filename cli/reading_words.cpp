#include "reading_words.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "word_stream.hpp"

namespace ohmwright::cli {

namespace {

const ConditionDescriptor* condition_called(const Descriptor& descriptor, std::string_view name) {
  const std::string spoken = spoken_name(name);
  for (const ConditionDescriptor& condition : descriptor.conditions)
    if (spoken_name(condition.option) == spoken || spoken_name(condition.id) == spoken) return &condition;
  return nullptr;
}

const StateDescriptor* state_called(const Descriptor& descriptor, std::string_view name) {
  const std::string spoken = spoken_name(name);
  for (const StateDescriptor& state : descriptor.states)
    if (!state.option.empty() && (spoken_name(state.option) == spoken || spoken_name(state.id) == spoken))
      return &state;
  return nullptr;
}

const MeasurandDescriptor* measurand_called(const Descriptor& descriptor, std::string_view name) {
  const std::string spoken = spoken_name(name);
  for (const MeasurandDescriptor& measurand : descriptor.measurands)
    if (spoken_name(measurand.id) == spoken) return &measurand;
  return nullptr;
}

bool holds(const std::vector<CircumstanceWord>& said, const std::string& option) {
  return std::any_of(said.begin(), said.end(), [&](const CircumstanceWord& one) { return one.option == option; });
}

bool tells_of_dead_points(std::string_view option) { return option == "unplugged" || option == "proved-dead"; }

/// How the part was connected and what the probes showed are said once for a row of readings, as a temperature is; that
/// it was dead, for a row of ohms. Wet and dry, live, and ranges tell one reading from the next.
bool holds_for_earlier(std::string_view option) {
  return option == "lead-off" || option == "in-circuit" || option == "leads" || tells_of_dead_points(option);
}

bool tells_of_supply(const std::vector<CircumstanceWord>& said) {
  return std::any_of(said.begin(), said.end(), [](const CircumstanceWord& one) {
    return one.option == "live" || tells_of_dead_points(one.option);
  });
}

bool contradicts_any(const std::vector<CircumstanceWord>& said, const std::string& option) {
  return std::any_of(said.begin(), said.end(),
                     [&](const CircumstanceWord& one) { return contradict(one.option, option); });
}

/// `-at`: two hyphens were meant. A negative number goes on with a digit or a point.
bool has_one_hyphen(std::string_view word) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return word.size() > 1 && word[0] == '-' && is_letter(word[1]);
}

bool has_its_own(const ReadingWords& reading) {
  return std::any_of(reading.circumstances.begin(), reading.circumstances.end(),
                     [](const CircumstanceWord& said) { return said.of_one_reading; });
}

/// `NAME=VALUE` in its two parts, or nothing.
std::optional<std::pair<std::string, std::string>> parts_of(const std::string& word) {
  const std::size_t equals = word.find('=');
  if (equals == std::string::npos) return std::nullopt;
  return std::pair(word.substr(0, equals), word.substr(equals + 1));
}

class WordSorter {
 public:
  WordSorter(std::span<const std::string> words, const Descriptor& descriptor,
             std::span<const std::string> verb_options)
      : words_(words), descriptor_(descriptor), verb_options_(verb_options) {}

  TypedWords sort() {
    while (!words_.at_end()) {
      std::string word = words_.take();
      if (has_one_hyphen(word))
        throw InputError(ohmwright::quoted(word) + " begins with one hyphen, and options with two: -" +
                         printable(word));
      if (is_option(word))
        take_option(word.substr(2));
      else
        take_word(std::move(word));
    }
    for (ReadingWords& reading : sorted_.readings) add_said_for_all(reading);
    return std::move(sorted_);
  }

 private:
  void take_option(const std::string& word) {
    const auto parts = parts_of(word);
    const std::string name = parts ? parts->first : word;
    const auto value = [&] { return parts ? parts->second : next_value(name); };
    if (const OptionSpec* flag = circumstance_named(spoken_name(name))) {
      if (flag->value.empty() && parts) throw InputError("--" + printable(name) + " takes no value");
      const std::string option(flag->name.substr(2));
      const Dimension dimension = option == "leads" ? Dimension::resistance : dimension_at_hand();
      say({option, flag->value.empty() ? "" : words_.value(value(), dimension)}, holds_for_earlier(option));
    } else if (const ConditionDescriptor* condition = condition_called(descriptor_, name)) {
      say_condition(*condition, value());
    } else if (const StateDescriptor* state = state_called(descriptor_, name)) {
      say({std::string(state->option), value()}, true);
    } else if (const MeasurandDescriptor* measurand = measurand_called(descriptor_, name)) {
      add_reading(*measurand, value(), said_for_group_);
    } else {
      refuse_option(name);
    }
  }

  void take_word(std::string word) {
    const MeasurandDescriptor* measurand = &descriptor_.measurands.front();
    if (auto parts = parts_of(word)) {
      measurand = measurand_called(descriptor_, parts->first);
      if (measurand == nullptr) {
        const ConditionDescriptor* condition = condition_called(descriptor_, parts->first);
        if (condition != nullptr) return say_condition(*condition, std::move(parts->second));
        const StateDescriptor* state = state_called(descriptor_, parts->first);
        if (state == nullptr) refuse_name(parts->first);
        return say({std::string(state->option), std::move(parts->second)}, true);
      }
      word = std::move(parts->second);
    }
    if (group_is_closed_) {
      ++group_;
      said_for_group_.clear();
      group_is_closed_ = false;
    }
    add_reading(*measurand, std::move(word), {});
  }

  std::string next_value(const std::string& name) {
    if (words_.at_end() || is_option(words_.front())) throw InputError("--" + printable(name) + " needs a value");
    return words_.take();
  }

  /// What a range is given in: the dimension of the reading before it.
  Dimension dimension_at_hand() const {
    const std::string_view measurand =
        sorted_.readings.empty() ? descriptor_.measurands.front().id : sorted_.readings.back().measurand;
    return descriptor_.measurands[index_of(descriptor_.measurands, measurand)].dimension;
  }

  void add_reading(const MeasurandDescriptor& measurand, std::string value, std::vector<CircumstanceWord> said) {
    const std::size_t at = value.find('@');
    std::optional<std::string> behind_at;
    if (at != std::string::npos) {
      behind_at = value.substr(at + 1);
      value.erase(at);
    } else {
      value = words_.value(std::move(value), measurand.dimension);
      if (!words_.at_end() && words_.front().starts_with('@')) behind_at = words_.take().substr(1);
    }
    if (behind_at) {
      const ConditionDescriptor& condition = condition_of_at();
      if (value.empty())
        throw InputError("\"@\" stands without a reading; write it behind the one it holds for: 11.0k@23C");
      std::erase_if(said, [&](const CircumstanceWord& one) { return one.option == condition.option; });
      said.push_back({std::string(condition.option), words_.value_after_at(*behind_at, condition.dimension), true});
    }
    add_value(std::string(measurand.id), std::move(value), std::move(said));
  }

  const ConditionDescriptor& condition_of_at() const {
    if (descriptor_.conditions.empty())
      throw InputError(with_article(descriptor_.id) + " has no condition that \"@\" could state");
    return descriptor_.conditions.front();
  }

  void add_value(std::string measurand, std::string value, std::vector<CircumstanceWord> said) {
    ReadingWords reading{std::move(measurand), {std::move(value)}, std::move(said), group_};
    if (!has_its_own(reading)) {
      for (ReadingWords& other : sorted_.readings)
        if (other.group == group_ && other.measurand == reading.measurand && !has_its_own(other)) {
          other.values.push_back(std::move(reading.values.front()));
          return;
        }
    }
    sorted_.readings.push_back(std::move(reading));
  }

  void say_condition(const ConditionDescriptor& condition, std::string value) {
    say({std::string(condition.option), words_.value(std::move(value), condition.dimension)}, true);
  }

  void say(CircumstanceWord circumstance, bool reaches_back) {
    if (sorted_.readings.empty()) {
      refuse_second_word(sorted_.said_for_all, circumstance);
      sorted_.said_for_all.push_back(std::move(circumstance));
      return;
    }
    circumstance.said_for = group_;
    say_for_group(circumstance, reaches_back);
    said_for_group_.push_back(std::move(circumstance));
    group_is_closed_ = true;
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

  /// Of ohms of which nothing was said yet; volts and amperes are never read on dead points.
  bool may_have_been_dead(const ReadingWords& reading) const {
    const MeasurandDescriptor* measurand = measurand_called(descriptor_, reading.measurand);
    return measurand != nullptr && measurand->dimension == Dimension::resistance &&
           !tells_of_supply(reading.circumstances);
  }

  void say_for_group(const CircumstanceWord& circumstance, bool reaches_back) {
    if (holds(sorted_.said_for_all, circumstance.option))
      throw InputError("--" + circumstance.option +
                       " stands before the first reading (for all of them) and again after one; write it after each "
                       "group of readings, or with the reading itself: 33.1k@0C 11.0k@23C");
    refuse_second_word(sorted_.said_for_all, circumstance);
    for (ReadingWords& reading : sorted_.readings) {
      if (reading.group == group_) {
        refuse_second_word(reading.circumstances, circumstance);
        reading.circumstances.push_back(circumstance);
      } else if (reaches_back && !holds(reading.circumstances, circumstance.option) &&
                 !contradicts_any(reading.circumstances, circumstance.option) &&
                 (!tells_of_dead_points(circumstance.option) || may_have_been_dead(reading))) {
        reading.circumstances.push_back(circumstance);
      }
    }
  }

  std::vector<std::string> names_of_measurands() const {
    std::vector<std::string> names;
    for (const MeasurandDescriptor& measurand : descriptor_.measurands) names.emplace_back(measurand.id);
    return names;
  }

  std::vector<std::string> names_of_conditions() const {
    std::vector<std::string> names;
    for (const ConditionDescriptor& condition : descriptor_.conditions) names.emplace_back(condition.option);
    for (const StateDescriptor& state : descriptor_.states)
      if (!state.option.empty()) names.emplace_back(state.option);
    return names;
  }

  [[noreturn]] void refuse_name(const std::string& name) const {
    const std::vector<std::string> measurands = names_of_measurands();
    const std::vector<std::string> conditions = names_of_conditions();
    std::vector<std::string> known = measurands;
    known.insert(known.end(), conditions.begin(), conditions.end());
    throw InputError(with_article(descriptor_.id) + " has no " + ohmwright::quoted(name) + " to read" +
                     did_you_mean(name, known) + "; it has: " + listed(measurands) +
                     (conditions.empty() ? "" : "; conditions: " + listed(conditions)));
  }

  [[noreturn]] void refuse_option(const std::string& name) const {
    std::vector<std::string> known(verb_options_.begin(), verb_options_.end());
    for (const OptionSpec& circumstance : circumstance_options()) known.emplace_back(circumstance.name);
    for (const std::string& condition : names_of_conditions()) known.push_back("--" + condition);
    for (const std::string& measurand : names_of_measurands()) known.push_back("--" + measurand);
    std::string meant = option_meant_by(name);
    meant = meant.empty() ? did_you_mean("--" + name, known) : "; did you mean \"" + meant + "\"?";
    throw InputError("unknown option " + ohmwright::quoted("--" + name) + meant + "; --help lists what there is");
  }

  /// The option for a word that stands for its value, --warming, or for what it says: --temp. Empty where there is
  /// none.
  std::string option_meant_by(const std::string& name) const {
    const std::string spoken = spoken_name(name);
    for (const StateDescriptor& state : descriptor_.states)
      for (const TextEntry& value : state.values)
        if (!state.option.empty() && spoken_name(value.id) == spoken)
          return "--" + std::string(state.option) + " " + std::string(value.id);
    if (spoken == "t" || spoken.starts_with("temp"))
      for (const ConditionDescriptor& condition : descriptor_.conditions)
        if (condition.dimension == Dimension::temperature) return "--" + std::string(condition.option);
    return "";
  }

  void add_said_for_all(ReadingWords& reading) const {
    for (const CircumstanceWord& circumstance : sorted_.said_for_all) {
      if (!holds(reading.circumstances, circumstance.option)) reading.circumstances.push_back(circumstance);
    }
  }

  WordStream words_;
  const Descriptor& descriptor_;
  std::span<const std::string> verb_options_;
  TypedWords sorted_;
  std::vector<CircumstanceWord> said_for_group_;
  int group_ = 0;
  bool group_is_closed_ = false;
};

}  // namespace

TypedWords sort_reading_words(std::span<const std::string> words, const Descriptor& descriptor,
                              std::span<const std::string> verb_options) {
  return WordSorter(words, descriptor, verb_options).sort();
}

}  // namespace ohmwright::cli
