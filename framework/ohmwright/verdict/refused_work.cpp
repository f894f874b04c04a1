#include <algorithm>
#include <array>
#include <iterator>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {

namespace {

// English, and the languages nearest to those who may write a file, without accents: a name is what is refused, not
// what the file does, so a list can only make an honest author stop and read.
constexpr std::string_view fuels[] = {"lpg",    "lp",     "propane", "butane", "fuel",     "propano",
                                      "butano", "propan", "butan",   "erdgas", "flusiggas"};
constexpr std::string_view gas_side[] = {"cock",     "tap",       "regulator", "solenoid", "burner",    "pipe",
                                         "manifold", "jet",       "line",      "nozzle",   "orifice",   "hose",
                                         "train",    "llave",     "regulador", "quemador", "tubo",      "boquilla",
                                         "manguera", "detendeur", "ventil",    "hahn",     "solenoide", "regler",
                                         "duse",     "ugello",    "tuyau",     "rampe"};
/// How valves and taps begin in several languages: valvula, valvola, electrovalvula; vanne; robinet, rubinetto.
constexpr std::string_view valve_begins[] = {"valv",        "vann",         "electrovalv", "electrovann",
                                             "elettrovalv", "magnetventil", "robinet",     "rubinett"};
/// The same of burners: Brenner, bruciatore, bruleur.
constexpr std::string_view burner_begins[] = {"brenner", "bruciator", "brul"};
/// How a word ends that says gas and its side at once: Gasventil, Gasmagnetventil, Erdgasleitung, gasvalve.
constexpr std::string_view gas_side_ends[] = {"ventil", "brenner", "hahn",  "regler",    "leitung",  "rohr", "schlauch",
                                              "duse",   "dusen",   "valve", "valves",    "valv",     "cock", "tap",
                                              "burner", "pipe",    "pipes", "regulator", "solenoid", "hose"};
/// What a burner has only where it burns gas. (An electric cooker's plate is called a burner, too.)
constexpr std::string_view burner[] = {"burner", "flame", "quemador", "llama", "fiamma", "flamme"};
constexpr std::string_view of_a_gas_burner[] = {"solenoid", "cock",   "pipe",      "nozzle", "orifice",
                                                "boquilla", "ventil", "solenoide", "duse",   "ugello"};
/// Its coil is that of its valve; a pilot relay has a coil, too, and is no part of it.
constexpr std::string_view coils[] = {"coil", "bobina", "bobine", "spule"};
constexpr std::string_view tube[] = {"magnetron"};  // also as a part of a longer word
constexpr std::string_view high_voltage[] = {"microwave", "hv", "kv", "microonda", "microonde", "onde"};
/// How words begin that say it in German, alone or before what they name: Hochspannungstrafo, Mikrowellenherd.
constexpr std::string_view high_voltage_begins[] = {"hochspannung", "mikrowell", "microwave"};
/// The same in two words: micro-wave, micro-ondes, Mikro-Welle.
constexpr std::string_view micro[] = {"micro", "mikro"};
constexpr std::string_view wave_begins[] = {"wave", "onda", "onde", "welle"};
constexpr std::string_view high_voltage_side[] = {"doubler", "inverter", "circuit", "winding", "side", "supply"};
/// How its parts are called in several languages, at the end of a longer word, too: transformer, transformador,
/// trasformatore, Hochspannungstrafo; capacitor, condensateur, Kondensator; rectifier, rectificador, Gleichrichter.
constexpr std::string_view high_voltage_parts[] = {"transform",   "trasformat", "trafo",   "capacitor", "condensa",
                                                   "kondensat",   "diod",       "rectifi", "raddrizz",  "redress",
                                                   "gleichricht", "doubleur",   "duplicat"};

/// A letter of Latin-1 with its accent taken off, by the second of its two bytes in UTF-8 after 0xC3; 0 for others.
char without_accent(unsigned char second) {
  constexpr std::string_view plain = "aaaaaaaceeeeiiiidnooooo ouuuuyts";  // U+00C0 to U+00DF; small ones follow alike
  const std::size_t place = second & 0x1FU;
  return second >= 0x80 && place < plain.size() ? plain[place] : '\0';
}

/// Whether two bytes of UTF-8 are an accent that stands behind its letter, U+0300 to U+036F: some systems write them
/// so.
bool is_combining_accent(unsigned char first, unsigned char second) {
  return (first == 0xCCU && second >= 0x80U && second <= 0xBFU) ||
         (first == 0xCDU && second >= 0x80U && second <= 0xAFU);
}

using Words = std::span<const std::string>;

/// Words of a name in small letters without accents: "Gas-válvulas" is "gas", "valvulas".
std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words(1);
  for (std::size_t i = 0; i < name.size(); ++i) {
    char letter = name[i];
    if (i + 1 < name.size()) {
      const auto first = static_cast<unsigned char>(name[i]);
      const auto second = static_cast<unsigned char>(name[i + 1]);
      if (is_combining_accent(first, second)) {
        ++i;
        continue;
      }
      if (first == 0xC3U) {
        letter = without_accent(second);
        ++i;
      }
    }
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
bool any_is(Words words, std::span<const std::string_view> sought) {
  return std::any_of(words.begin(), words.end(), [sought](std::string_view word) {
    const std::string_view one = word.ends_with('s') && word != "gas" ? word.substr(0, word.size() - 1) : word;
    return std::find(sought.begin(), sought.end(), one) != sought.end();
  });
}

bool follows(Words words, std::string_view first, std::string_view second) {
  const std::string_view both[] = {first, second};
  return std::search(words.begin(), words.end(), std::begin(both), std::end(both)) != words.end();
}

/// Whether a word begins so, as one may in several languages does.
bool any_begins(Words words, std::span<const std::string_view> sought) {
  return std::any_of(words.begin(), words.end(), [sought](std::string_view word) {
    return std::any_of(sought.begin(), sought.end(),
                       [word](std::string_view begin) { return word.starts_with(begin); });
  });
}

bool any_contains(Words words, std::span<const std::string_view> sought) {
  return std::any_of(words.begin(), words.end(), [sought](std::string_view word) {
    return std::any_of(sought.begin(), sought.end(),
                       [word](std::string_view part) { return word.find(part) != std::string_view::npos; });
  });
}

bool says_micro_wave(Words words) {
  for (std::size_t i = 0; i + 1 < words.size(); ++i)
    if (any_is(words.subspan(i, 1), micro) && any_begins(words.subspan(i + 1, 1), wave_begins)) return true;
  return false;
}

bool says_high_voltage(Words words) {
  return any_is(words, high_voltage) || any_begins(words, high_voltage_begins) || says_micro_wave(words) ||
         follows(words, "high", "voltage") || follows(words, "alta", "tension") || follows(words, "alta", "tensione") ||
         follows(words, "haute", "tension");
}

bool names_its_side(Words words) { return any_is(words, high_voltage_side) || any_contains(words, high_voltage_parts); }

/// gas, gaz, Gasherd, gaziniere, LPG; a gasket is none of it.
bool names_a_fuel(Words words) {
  return any_is(words, fuels) || std::any_of(words.begin(), words.end(), [](std::string_view word) {
           return (word.starts_with("gas") && !word.starts_with("gask")) || word.starts_with("gaz");
         });
}

/// Gas and its side in one word, also in the plural: Gasventile.
bool names_a_gas_part(Words words) {
  return std::any_of(words.begin(), words.end(), [](std::string_view word) {
    const std::size_t gas = word.find("gas");
    if (gas == std::string_view::npos) return false;
    const std::string_view rest = word.substr(gas + 3);
    const std::string_view stem = rest.substr(0, rest.find_last_not_of("ens") + 1);  // "brenner" keeps its r
    return std::any_of(std::begin(gas_side_ends), std::end(gas_side_ends),
                       [&](std::string_view end) { return rest.ends_with(end) || stem.ends_with(end); });
  });
}

bool is_on_gas_side(Words words) {
  return any_is(words, gas_side) || any_begins(words, valve_begins) || any_begins(words, burner_begins);
}

/// Valves and pipes of a defrost by hot gas, which is refrigerant: hot gas, gas caliente, Heissgasventil.
bool says_hot_gas(Words words) {
  constexpr std::string_view in_one_word[] = {"heissgas", "heisgas"};
  const bool is_hot = follows(words, "hot", "gas") || follows(words, "gas", "caliente") ||
                      follows(words, "gaz", "chaud") || follows(words, "gas", "caldo") ||
                      any_begins(words, in_one_word);
  return is_hot && (is_on_gas_side(words) || names_a_gas_part(words));
}

bool says_gas(Words words) {
  constexpr std::string_view pilot[] = {"pilot", "piloto", "pilota", "veilleuse", "zundflamme"};
  if (names_a_gas_part(words) || (names_a_fuel(words) && (is_on_gas_side(words) || any_is(words, pilot)))) return true;
  const bool burns = any_is(words, burner) || any_begins(words, burner_begins);
  const bool has_what_gas_asks = any_is(words, of_a_gas_burner) || any_begins(words, valve_begins);
  if (any_is(words, pilot)) return burns || has_what_gas_asks;
  return burns && (has_what_gas_asks || any_is(words, coils));
}

std::string_view reason_of(Words words) {
  if (says_hot_gas(words))
    return "the refrigerant circuit is outside of what this program does: it stops at hot-gas valves, pipes and the "
           "compressor's shell, which are licensed refrigerant work; describe the electrical side alone";
  if (says_gas(words))
    return "gas is outside of what this program does: it stops at valve, pipe and burner, which are work for licensed "
           "hands; describe the electrical side alone, such as an igniter";
  if (any_contains(words, tube) || (says_high_voltage(words) && names_its_side(words)))
    return "the high-voltage side of a microwave oven can kill, also when it is unplugged; this program has no part in "
           "it: leave it to those who are qualified and equipped for it";
  return {};
}

char small_letter(char letter) {
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

bool goes_on(std::string_view text, std::size_t from, std::string_view stem) {
  if (text.size() - from < stem.size()) return false;
  for (std::size_t i = 0; i < stem.size(); ++i)
    if (small_letter(text[from + i]) != stem[i]) return false;
  return true;
}

/// How words begin that speak of it; gas and magnetron also stand within longer ones.
constexpr std::string_view telling[] = {"gas",    "magnetron", "gaz",       "lp",       "propan", "butan", "fuel",
                                        "burner", "flam",      "fiamm",     "quemador", "llama",  "bren",  "bruciator",
                                        "brul",   "pilot",     "veilleuse", "zund",     "micro",  "mikro", "hv",
                                        "kv",     "onde",      "hochspann", "high",     "alta",   "haute"};
constexpr std::size_t telling_anywhere = 2;

/// Whether a word that speaks of it begins at `i`.
bool tells(std::string_view text, std::size_t i, bool at_word) {
  const std::size_t count = at_word ? std::size(telling) : telling_anywhere;
  return std::any_of(telling, telling + count, [&](std::string_view stem) { return goes_on(text, i, stem); });
}

/// Whether a name or text may say any of it: one pass that spares nearly all of them the rest. A kind's texts are
/// looked at whenever it is opened.
bool may_say_it(std::string_view text) {
  constexpr std::array<bool, 256> begins_one = [] {
    std::array<bool, 256> letters{};
    for (const std::string_view stem : telling) letters[static_cast<unsigned char>(stem.front())] = true;
    return letters;
  }();
  bool at_word = true;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == 0xC3U || byte == 0xCCU || byte == 0xCDU) return true;  // a letter with an accent
    const char letter = small_letter(text[i]);
    const bool may_be_within = letter == 'g' || letter == 'm';
    if ((at_word || may_be_within) && begins_one[static_cast<unsigned char>(letter)] && tells(text, i, at_word))
      return true;
    at_word = letter < 'a' || letter > 'z';
  }
  return false;
}

}  // namespace

std::string_view refused_work(std::string_view name) {
  return may_say_it(name) ? reason_of(words_of(name)) : std::string_view();
}

std::string_view refused_work_in_text(std::string_view text) {
  if (refused_work(text).empty()) return {};  // what no part of it says, the whole does not say
  constexpr std::string_view ends_of_sentences = ".;:!?\"()\n";
  constexpr std::size_t reach = 4;  // "burner of a gas …"
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(ends_of_sentences), text.size());
    const std::vector<std::string> words = words_of(text.substr(0, end));
    const bool sends_to_others = std::find(words.begin(), words.end(), "licensed") != words.end();
    for (std::size_t i = 0; !sends_to_others && i < words.size(); ++i)
      if (const auto reason = reason_of(Words(words).subspan(i, std::min(reach, words.size() - i))); !reason.empty())
        return reason;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return {};
}

}  // namespace ohmwright
