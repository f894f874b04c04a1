#include <limits>

#include <ohmwright/component/evidence/refused_values.hpp>
#include <ohmwright/component/evidence/source_list.hpp>

namespace ohmwright {

namespace {

/// The list is written over what it held for the part before, which mostly had the same names: to see that costs less
/// than to write them again.
void put(std::string_view text, std::string& into) {
  if (into != text) into = text;
}

}  // namespace

SourceIndex SourceList::add(std::string_view id, std::string_view of, Shape shape) {
  if (count_ > std::numeric_limits<SourceIndex>::max()) refuse_so_many(readings_);
  if (count_ == sources_.size()) sources_.emplace_back();
  ErrorSource& source = sources_[count_];
  put(id, source.id);
  put(of, source.of);
  source.shape = shape;
  source.degrees_of_freedom = std::numeric_limits<double>::infinity();
  return static_cast<SourceIndex>(count_++);
}

SourceIndex SourceList::shared(std::string_view id, std::string_view of, Shape shape) {
  // Only among sources that were made to be shared: a name that people gave may be the label of another reading.
  for (const SourceIndex source : first_shared_)
    if (sources_[source].id == id && sources_[source].of == of) return source;
  if (first_shared_.size() < first_shared_.capacity()) return first_shared_.emplace_back(add(id, of, shape));
  const auto [found, is_new] = shared_.try_emplace({std::string(id), std::string(of)}, SourceIndex{0});
  if (is_new) found->second = add(id, of, shape);
  return found->second;
}

SourceIndex SourceList::of_same(const SameError& same, const std::string& label) {
  for (const auto& [earlier, source] : first_of_same_)
    if (earlier.key() == same.key()) return source;
  if (first_of_same_.size() < first_of_same_.capacity()) {
    const SourceIndex source = add(same.id, label, Shape::rectangular);
    first_of_same_.emplace_back(same, source);
    return source;
  }
  const auto [found, is_new] = of_same_.try_emplace(same, SourceIndex{0});
  if (is_new) found->second = add(same.id, label, Shape::rectangular);
  return found->second;
}

}  // namespace ohmwright
