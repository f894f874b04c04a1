#include <utility>

#include <ohmwright/plugin/descriptor_check.hpp>
#include <ohmwright/plugin/made_kind.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

MadeKind make_kind(const PluginTable& table, const StampedKind& stamped, const std::function<Kind*()>& create,
                   std::vector<std::string>& reasons) {
  MadeKind made{{nullptr, DestroyKind{table.destroy_kind}}, nullptr};
  const std::string name = "the kind " + ohmwright::quoted(stamped.id);
  const std::size_t reasons_before = reasons.size();
  if (const auto thrown = guarded([&] { made.kind.reset(create()); })) {
    reasons.push_back("making " + name + " failed: " + *thrown);
  } else if (reasons.size() > reasons_before) {
    return made;  // its maker has said what is wrong
  } else if (made.kind == nullptr) {
    reasons.push_back("making " + name + " gave nothing");
  } else if (const auto thrown_by_descriptor = guarded([&] { made.descriptor = &made.kind->descriptor(); })) {
    reasons.push_back("describing " + name + " failed: " + *thrown_by_descriptor);
  } else if (const auto thrown_by_check = guarded([&] {
               for (std::string& problem : descriptor_problems(*made.descriptor, stamped))
                 reasons.push_back(std::move(problem));
             })) {
    reasons.push_back("checking the descriptor of " + name + " failed: " + *thrown_by_check);
  }
  return made;
}

}  // namespace ohmwright
