#include <algorithm>
#include <iterator>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

// English, and the languages nearest to those who may write a file, without accents: a name is what is refused, not
// what the file does, so a list can only make an honest author stop and read.
constexpr std::string_view fuels[] = {"gas", "lpg", "lp", "propane", "butane", "fuel", "gaz", "propano", "butano"};
constexpr std::string_view gas_side[] = {
    "valve",     "cock",     "tap",    "regulator", "solenoid",   "burner",         "pipe",     "manifold",
    "jet",       "line",     "nozzle", "orifice",   "hose",       "train",          "valvula",  "llave",
    "regulador", "quemador", "tubo",   "boquilla",  "manguera",   "vanne",          "bruleur",  "detendeur",
    "ventil",    "brenner",  "hahn",   "valvola",   "bruciatore", "electrovalvula", "solenoide"};
/// Said in one word.
constexpr std::string_view gas_parts[] = {"gasventil", "gasbrenner", "gashahn", "gasmagnetventil", "gasregler"};
/// What a burner has only where it burns gas. (An electric cooker's plate is called a burner, too.)
constexpr std::string_view burner[] = {"burner", "flame", "pilot", "quemador", "llama"};
constexpr std::string_view of_a_gas_burner[] = {"valve",  "solenoid", "coil",           "cock",
                                                "pipe",   "nozzle",   "orifice",        "valvula",
                                                "bobina", "boquilla", "electrovalvula", "solenoide"};
constexpr std::string_view tube[] = {"magnetron"};
constexpr std::string_view high_voltage[] = {"microwave", "hv", "kv", "microonda", "mikrowelle"};
constexpr std::string_view high_voltage_side[] = {"transformer", "capacitor",    "diode",         "rectifier",
                                                  "doubler",     "inverter",     "circuit",       "winding",
                                                  "side",        "supply",       "transformador", "condensador",
                                                  "diodo",       "rectificador", "transformator", "kondensator"};

/// A letter of Latin-1 with its accent taken off, by the second of its two bytes in UTF-8 after 0xC3; 0 for others.
char without_accent(unsigned char second) {
  constexpr std::string_view plain = "aaaaaaaceeeeiiiidnooooo ouuuuyts";  // U+00C0 to U+00DF; small ones follow alike
  const std::size_t place = second & 0x1FU;
  return second >= 0x80 && place < plain.size() ? plain[place] : '\0';
}

/// Words of a name in small letters without accents: "Gas-válvulas" is "gas", "valvulas".
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  for (std::size_t i = 0; i < name.size(); ++i) {
    char letter = name[i];
    if (static_cast<unsigned char>(letter) == 0xC3U && i + 1 < name.size())
      letter = without_accent(static_cast<unsigned char>(name[++i]));
    const bool is_capital = letter >= 'A' && letter <= 'Z';
    const bool is_small = letter >= 'a' && letter <= 'z';
    if (is_capital || is_small)
      words.back() += is_capital ? static_cast<char>(letter - 'A' + 'a') : letter;
    else if (!words.back().empty())
      words.emplace_back();
  }
  return words;
}

/// Without the s of a plural.
bool any_is(const std::vector<std::string>& words, std::span<const std::string_view> sought) {
  return std::any_of(words.begin(), words.end(), [sought](std::string_view word) {
    const std::string_view one = word.ends_with('s') && word != "gas" ? word.substr(0, word.size() - 1) : word;
    return std::find(sought.begin(), sought.end(), one) != sought.end();
  });
}

bool follows(const std::vector<std::string>& words, std::string_view first, std::string_view second) {
  const std::string_view both[] = {first, second};
  return std::search(words.begin(), words.end(), std::begin(both), std::end(both)) != words.end();
}

bool says_high_voltage(const std::vector<std::string>& words) {
  return any_is(words, high_voltage) || follows(words, "high", "voltage") || follows(words, "alta", "tension");
}

bool says_gas(const std::vector<std::string>& words) {
  return any_is(words, gas_parts) || (any_is(words, fuels) && any_is(words, gas_side)) ||
         (any_is(words, burner) && any_is(words, of_a_gas_burner));
}

}  // namespace

std::string_view refused_work(std::string_view name) {
  const std::vector<std::string> words = words_of(name);
  if (says_gas(words))
    return "gas is outside of what this program does: it stops at valve, pipe and burner, which are work for licensed "
           "hands; describe the electrical side alone, such as an igniter";
  if (any_is(words, tube) || (says_high_voltage(words) && any_is(words, high_voltage_side)))
    return "the high-voltage side of a microwave oven can kill, also when it is unplugged; this program has no part in "
           "it: leave it to those who are qualified and equipped for it";
  return {};
}

}  // namespace ohmwright
