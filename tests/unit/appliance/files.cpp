#include "files.hpp"

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <unistd.h>

#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/named_file.hpp>

namespace ohmwright::testing {

namespace {

const std::string& folder() {
  static const std::string path = OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances";
  return path;
}

}  // namespace

const Registry& built_kinds() {
  static const Registry registry({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return registry;
}

std::vector<std::string> shipped_appliances() { return names_in_folder(folder()); }

std::string shipped_text(const std::string& name) {
  const std::ifstream file(folder() + "/" + name + ".json");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> missing_kinds(const std::string& text) {
  std::set<std::string> missing;
  const Document document = parse_document(text, "file");
  for (const ValueNode& part : list_of(document.root, "parts")) {
    const std::string kind = text_of(part, "kind");
    try {
      built_kinds().kind(kind);
    } catch (const InputError&) {
      missing.insert(kind);
    }
  }
  return {missing.begin(), missing.end()};
}

Appliance appliance_of(const std::string& text) { return read_appliance(parse_document(text, "file"), built_kinds()); }

std::string refusal_of(const std::string& text) {
  try {
    appliance_of(text);
    return "";
  } catch (const DocumentError& refusal) {
    return refusal.what();
  }
}

std::string fan_heater() {
  return R"({
  "appliance": "fan-heater-230v",
  "title": "Fan heater",
  "supply": {"voltage": "230 V ± 14 V", "frequency": "50 Hz", "live": "L", "neutral": "N", "earth": "PE"},
  "zones": [{"id": "box", "title": "heater box", "temperature": "21 degC ± 3 K"}],
  "covers": [{"id": "back", "title": "back", "minutes": "4 min", "cautions": ["hot-surface"]}],
  "parts": [
    {"id": "limit", "title": "Limit", "kind": "high-limit-thermostat", "ratings": "high-limit-95", "zone": "box",
     "connections": {"contact-1": "L", "contact-2": "A"}, "behind": ["back"]},
    {"id": "link", "title": "Thermal link", "kind": "thermal-link", "ratings": "tf-128", "zone": "box",
     "connections": {"lead-1": "A", "lead-2": "B"}, "behind": ["back"]},
    {"id": "heater", "title": "Heater", "kind": "heater", "ratings": "heater-2kw-230v", "zone": "box",
     "connections": {"lead-1": "B", "lead-2": "N", "frame": "PE"}, "behind": ["back"]},
    {"id": "fan", "title": "Fan", "kind": "fan-motor", "ratings": "shaded-pole-230v", "zone": "box",
     "connections": {"lead-1": "L", "lead-2": "N", "frame": "PE"}, "behind": ["back"]}
  ],
  "test_points": [
    {"id": "plug", "title": "At the plug", "measure": "ohms", "from": "L", "to": "N", "minutes": "1 min"},
    {"id": "plug-to-earth", "title": "Plug to earth", "measure": "ohms", "from": "N", "to": "PE", "minutes": "1 min"},
    {"id": "limit-alone", "title": "Limit, a lead off", "measure": "ohms", "from": "limit.contact-1",
     "to": "limit.contact-2", "lifted": ["limit.contact-1"], "behind": ["back"], "minutes": "2 min"},
    {"id": "amperes", "title": "Clamp at the heater", "measure": "amperes", "around": "heater.lead-1",
     "behind": ["back"], "minutes": "2 min"}
  ],
  "set_ups": [
    {"id": "box-warmed", "title": "box warmed", "minutes": "9 min", "temperatures": {"box": "60 degC ± 5 K"},
     "cautions": ["hot-surface"]}
  ],
  "evidence": {"cold-air": "The air that it blows stays cold"},
  "outside_causes": [
    {"id": "grille-covered", "title": "grille covered", "weight": 1, "source": "assumed, no source",
     "symptoms": {"cold-air": 0.5, "no-heat": 0.3}, "check": "look at the grille"}
  ],
  "consequences": [
    {"cause": "grille-covered", "effect": "link.acted", "probability": 0.2, "source": "assumed, no source"}
  ]
})";
}

std::string fan_heater_with(const std::string& from, const std::string& to) {
  std::string text = fan_heater();
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

}  // namespace ohmwright::testing
