#pragma once

#include <span>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// An appliance as a page that a technician reads before the call: supply, parts and where they are connected, covers,
/// test points with their minutes, set-ups with their cautions, causes that are no part, codes.
std::string appliance_page(const Appliance& appliance, const Sentences& say, const PageStyle& style);

/// The same as a whole HTML page; `drawing` is the circuit as SVG, empty for none; `made_with` stands at its foot.
std::string appliance_html(const Appliance& appliance, const Sentences& say, std::string_view drawing,
                           std::string_view made_with = {});

/// What a check found, as a page: what is wrong first, then what no reading of the file can tell.
std::string findings_page(const Appliance& appliance, std::span<const ApplianceFinding> findings, const Sentences& say,
                          const PageStyle& style);

/// The same for programs (schemas/appliance-check.schema.json), indented, with a final newline.
std::string findings_json(const Appliance& appliance, std::span<const ApplianceFinding> findings, const Sentences& say);

/// One finding in a sentence.
std::string finding_text(const Appliance& appliance, const ApplianceFinding& finding, const Sentences& say);

/// A section of the page of an appliance.
struct ApplianceSection {
  std::string title;
  std::vector<std::string> lines;
};

/// What the page says, in the reader's language, before it is laid out.
struct ApplianceContent {
  std::string headline;
  std::vector<std::string> introduction;
  std::vector<ApplianceSection> sections;
};

ApplianceContent appliance_content(const Appliance& appliance, const Sentences& say);

}  // namespace ohmwright
