#include "kind_of_file.hpp"

#include <utility>

#include "model/definition.hpp"
#include "part/comparison.hpp"
#include "part/part_of_file.hpp"
#include "part/rated_figures.hpp"
#include "reading/definition_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// A kind with its own copy of the file: its descriptor points into that.
class KindOfFile final : public Kind {
 public:
  KindOfFile(ValueNode document, std::vector<Problem>& problems) : document_(std::move(document)) {
    read_definition(document_, definition_, problems);
  }

  const Descriptor& descriptor() const override { return definition_.descriptor; }

  std::unique_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const override {
    const std::size_t before = problems.size();
    const RatingValues values = read_rating_values(definition_, ratings, problems);
    std::vector<KnownRule> known = known_rules(definition_, values, ratings, problems);
    if (problems.size() > before) return nullptr;
    return std::make_unique<PartOfFile>(definition_, values, std::move(known));
  }

  std::vector<EquivalenceFinding> compare(const Part& original, const Part& candidate,
                                          const ComparisonContext& context) const override {
    // Both are of this kind, as the host promises: it made them with `make_part`.
    return compare_parts(definition_, static_cast<const PartOfFile&>(original),
                         static_cast<const PartOfFile&>(candidate), context);
  }

 private:
  const ValueNode document_;
  Definition definition_;
};

}  // namespace

std::unique_ptr<Kind> kind_of(const ValueNode& document, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  auto kind = std::make_unique<KindOfFile>(document, problems);
  if (problems.size() > before) return nullptr;
  return kind;
}

}  // namespace ohmwright::kind_file
