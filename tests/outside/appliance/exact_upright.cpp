#include "exact_upright.hpp"

#include <fstream>
#include <unistd.h>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace ohmwright::testing {

namespace {

using Json = nlohmann::ordered_json;

const Registry& kinds() {
  static const Registry registry({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return registry;
}

std::string ohms(double value) { return fmt::format("{} ohm", value); }

/// Good contacts lie between what any has at least and what the ratings allow at most; this is the most of those whose
/// middle is `middle`.
std::string contact_of(double middle, double least) { return ohms(2.0 * middle - least); }

Json wiring_of(double middle) {
  constexpr double least_contact = 0.001;
  return {{"form", "splice"}, {"contact_resistance", contact_of(middle, least_contact)}};
}

Json motor_of(double winding) {
  return {{"construction", "shaded-pole"},
          {"voltage", "120 V"},
          {"frequency", "60 Hz"},
          {"winding", ohms(winding)},
          {"winding_tolerance", "0.001 %"},
          {"reference_temperature", "20 degC"},
          {"current", "1.4 A"},
          {"current_tolerance", "25 %"}};
}

Json resistance_of(double value) { return {{"resistance", ohms(value)}, {"resistance_tolerance", "0.001 %"}}; }

Json ratings_of(const std::string& part, const Strayed& strayed) {
  constexpr double least_contact = 0.01;
  if (part == "timer")
    return {{"type", "cam-timer"},
            {"voltage", "120 V"},
            {"frequency", "60 Hz"},
            {"motor_least", "7999 ohm"},
            {"motor_most", "8001 ohm"},
            {"motor_temperature", "20 degC"},
            {"contact_resistance", contact_of(0.05, least_contact)}};
  if (part == "thermostat")
    return {{"opening", {{"temperature", "13 degC"}, {"tolerance", "3 K"}}},
            {"closing", {{"temperature", "-4 degC"}, {"tolerance", "5 K"}}},
            {"contact_resistance", contact_of(0.05, least_contact)},
            {"leads", 2}};
  if (part == "splice") return wiring_of(0.05);
  if (part == "heater-lead") return wiring_of(0.05);
  if (part == "heater") return resistance_of(strayed.heater);
  return motor_of(part == "fan" ? 120.0 : 6.0);
}

/// Puts more ohms behind the first terminal of a part, where it still lies between the nodes around the part.
void put_in_series(Json& json, const std::string& part, const char* terminal, double more) {
  if (!(more > 0.0)) return;
  const std::string between = part + "-joint";
  for (Json& row : json["parts"]) {
    if (row["id"] != part) continue;
    Json added{{"id", part + "-joint"},          {"title", "bad joint"}, {"kind", "heater"},
               {"ratings", resistance_of(more)}, {"zone", "room"},       {"weight", 0}};
    added["connections"] = {{"lead-1", row["connections"][terminal]}, {"lead-2", between}};
    row["connections"][terminal] = between;
    json["parts"].push_back(added);
    return;
  }
}

Json point(const std::string& id, const char* measure, const std::string& from, const std::string& to) {
  return {{"id", id}, {"title", id}, {"measure", measure}, {"from", from}, {"to", to}, {"minutes", "1 min"}};
}

}  // namespace

Appliance exact_upright(const Strayed& strayed) {
  std::ifstream file(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances/upright-timer-bimetal-120v.json");
  Json json = Json::parse(file);
  for (Json& zone : json["zones"]) zone["temperature"] = zone["id"] == "coil" ? "-18 degC ± 0 K" : "20 degC ± 0 K";
  for (Json& part : json["parts"]) {
    part["ratings"] = ratings_of(part["id"], strayed);
    if (part["id"] == "timer") part["states"] = {{"position", "defrost"}};
    if (part["id"] != "thermostat") part["zone"] = "room";  // where its ohms are those of its ratings
  }
  put_in_series(json, "thermostat", "contact-1", strayed.contact);
  put_in_series(json, "splice", "end-1", strayed.splice);
  json["supply"]["neutral"] = "plug-N";
  json["parts"].push_back({{"id", "cord-neutral"},
                           {"title", "Neutral of the cord"},
                           {"kind", "wiring"},
                           {"ratings", wiring_of(0.05)},
                           {"zone", "room"},
                           {"connections", {{"end-1", "N"}, {"end-2", "plug-N"}}}});
  for (const auto& [from, to] :
       {std::pair{"D", "X"}, {"X", "N"}, {"D", "N"}, {"L", "D"}, {"L", "N"}, {"H1", "H2"}, {"X", "H1"}, {"R", "N"}})
    json["test_points"].push_back(point(std::string(from) + "-" + to, "ohms", from, to));
  for (const char* from : {"D", "X", "H1", "H2", "N"}) {
    json["test_points"].push_back(point(std::string(from) + "-volts", "volts", from, "plug-N"));
    json["test_points"].push_back(point(std::string(from) + "-to-earth", "volts", from, "PE"));
  }
  json["set_ups"].push_back({{"id", "coil-warm"},
                             {"title", "coil warm"},
                             {"minutes", "1 min"},
                             {"temperatures", {{"coil", "22 degC ± 0 K"}}}});
  return read_appliance(parse_document(json.dump(), "exact upright"), kinds());
}

}  // namespace ohmwright::testing
