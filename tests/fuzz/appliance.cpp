// Reads any bytes as an appliance's file and as a kit. What is read can be checked, and its text reads back as the same
// appliance; what is refused is an Error that a terminal takes as text.
#include <cstdint>
#include <unistd.h>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/appliance/kit.hpp>
#include <ohmwright/report/appliance_drawing.hpp>
#include <ohmwright/report/appliance_report.hpp>

#include "document_fuzz.hpp"

namespace {

using namespace ohmwright;

const Registry& kinds() {
  static const Registry registry({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return registry;
}

template <class Read>
void try_to(Read read) {
  try {
    read();
  } catch (const Error& refusal) {
    fuzz::require(refusal.category() != ErrorCategory::internal);
    fuzz::require_printable(refusal.what());
  }
}

void use(const Appliance& appliance) {
  const Sentences say{UnitPreferences{}};
  const std::vector<ApplianceFinding> findings = check_appliance(appliance);
  fuzz::require(!findings_page(appliance, findings, say, {40, false}).empty());
  fuzz::require(!appliance_page(appliance, say, {80, false}).empty());
  fuzz::require(!drawing_script(appliance, {}, say).empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try_to([text] {
    const Document document = parse_document(text, "file");
    const std::string once = file_text(document.root);
    fuzz::require(file_text(parse_document(once, "file").root) == once);
    const Appliance appliance = read_appliance(document, kinds());
    use(appliance);
    fuzz::require(read_appliance(parse_document(once, "file"), kinds()).parts.size() == appliance.parts.size());
  });
  try_to([text] {
    const Kit kit(parse_document(text, "kit"));
    fuzz::require(file_text(kit.build({})) == file_text(kit.build({})));
  });
  return 0;
}
