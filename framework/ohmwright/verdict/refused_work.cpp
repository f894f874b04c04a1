#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

constexpr std::array<std::string_view, 5> fuels{"gas", "lpg", "propane", "butane", "fuel"};
constexpr std::array<std::string_view, 14> gas_side{"valve",  "cock",    "tap",      "regulator", "solenoid",
                                                    "burner", "pipe",    "manifold", "jet",       "line",
                                                    "nozzle", "orifice", "hose",     "train"};
/// What a burner has only where it burns gas. (An electric cooker's plate is called a burner, too.)
constexpr std::array<std::string_view, 1> burner{"burner"};
constexpr std::array<std::string_view, 7> of_a_gas_burner{"valve", "solenoid", "coil",   "cock",
                                                          "pipe",  "nozzle",   "orifice"};
constexpr std::array<std::string_view, 3> high_voltage{"microwave", "hv", "kv"};
constexpr std::array<std::string_view, 10> high_voltage_side{
    "transformer", "capacitor", "diode", "rectifier", "doubler", "inverter", "circuit", "winding", "side", "supply"};

/// Words of a name in small letters, without the s of a plural: "Gas-valves" is "gas", "valve".
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  for (const char letter : name) {
    const bool is_capital = letter >= 'A' && letter <= 'Z';
    const bool is_small = letter >= 'a' && letter <= 'z';
    if (is_capital || is_small)
      words.back() += is_capital ? static_cast<char>(letter - 'A' + 'a') : letter;
    else if (!words.back().empty())
      words.emplace_back();
  }
  return words;
}

template <std::size_t Count>
bool any_is(const std::vector<std::string>& words, const std::array<std::string_view, Count>& sought) {
  return std::any_of(words.begin(), words.end(), [&sought](std::string_view word) {
    const std::string_view one = word.ends_with('s') && word != "gas" ? word.substr(0, word.size() - 1) : word;
    return std::find(sought.begin(), sought.end(), one) != sought.end();
  });
}

bool says_high_voltage(const std::vector<std::string>& words) {
  constexpr std::array<std::string_view, 2> both{"high", "voltage"};
  return any_is(words, high_voltage) ||
         std::search(words.begin(), words.end(), both.begin(), both.end()) != words.end();
}

}  // namespace

std::string_view refused_work(std::string_view name) {
  constexpr std::array<std::string_view, 1> tube{"magnetron"};
  const std::vector<std::string> words = words_of(name);
  if ((any_is(words, fuels) && any_is(words, gas_side)) || (any_is(words, burner) && any_is(words, of_a_gas_burner)))
    return "gas is outside of what this program does: it stops at valve, pipe and burner, which are work for licensed "
           "hands; describe the electrical side alone, such as an igniter";
  if (any_is(words, tube) || (says_high_voltage(words) && any_is(words, high_voltage_side)))
    return "the high-voltage side of a microwave oven can kill, also when it is unplugged; this program has no part in "
           "it: leave it to those who are qualified and equipped for it";
  return {};
}

}  // namespace ohmwright
