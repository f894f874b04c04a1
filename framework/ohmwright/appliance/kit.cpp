#include <algorithm>
#include <optional>

#include <ohmwright/appliance/kit.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view unknown = "unknown";

KitQuestion read_question(const ValueNode& entry, std::vector<Problem>& problems) {
  KitQuestion question{text_of(entry, "id"), text_of(entry, "asks"), {}};
  for (const ValueNode& choice : list_of(entry, "choices"))
    question.choices.push_back(
        {text_of(choice, "id"), text_of(choice, "title"), text_of(choice, "stands_for"), text_of(choice, "note")});
  if (question.id.empty() || question.asks.empty())
    problems.push_back(entry.problem("a question has \"id\" and \"asks\""));
  if (question.choices.empty() || question.choices.back().id != unknown)
    problems.push_back(entry.problem("the last choice of a question is \"unknown\""));
  return question;
}

/// Fills a template by the answers, each already the choice that is built.
class Filling {
 public:
  explicit Filling(KitAnswers built) : built_(std::move(built)) {}

  std::optional<ValueNode> fill(const ValueNode& node) const {
    if (const ValueNode::Array* array = node.array()) {
      ValueNode::Array filled;
      for (const ValueNode& entry : *array)
        if (auto kept = fill(entry)) filled.push_back(*std::move(kept));
      return ValueNode(std::move(filled), node.pointer(), node.line());
    }
    if (node.members() == nullptr) return node;
    if (const std::string question = text_of(node, "choose"); !question.empty()) return chosen(node, question);
    const ValueNode* when = node.find("when");
    if (when != nullptr && !holds_some(*when)) return std::nullopt;
    ValueNode::Members filled;
    for (const auto& [name, member] : *node.members()) {
      if (&member == when) continue;
      if (auto kept = fill(member)) filled.emplace_back(name, *std::move(kept));
    }
    return ValueNode(std::move(filled), node.pointer(), node.line());
  }

 private:
  std::optional<ValueNode> chosen(const ValueNode& node, const std::string& question) const {
    const auto answer = built_.find(question);
    const ValueNode* taken = answer == built_.end() ? nullptr : node.find(answer->second);
    if (taken == nullptr) taken = node.find("otherwise");
    return taken == nullptr ? std::nullopt : fill(*taken);
  }

  bool holds_some(const ValueNode& when) const {
    if (const ValueNode::Array* alternatives = when.array())
      return std::any_of(alternatives->begin(), alternatives->end(),
                         [this](const ValueNode& one) { return holds(one); });
    return holds(when);
  }

  bool holds(const ValueNode& conditions) const {
    if (conditions.members() == nullptr) return false;
    return std::all_of(conditions.members()->begin(), conditions.members()->end(), [this](const auto& condition) {
      const auto answer = built_.find(condition.first);
      const ValueNode::Array* accepted = condition.second.array();
      return answer != built_.end() && accepted != nullptr &&
             std::any_of(accepted->begin(), accepted->end(),
                         [&](const ValueNode& one) { return one.text() != nullptr && *one.text() == answer->second; });
    });
  }

  KitAnswers built_;
};

/// The appliance with what was assumed of it as a member more.
ValueNode with_assumed(const ValueNode& appliance, const std::vector<std::string>& notes) {
  if (notes.empty() || appliance.members() == nullptr) return appliance;
  ValueNode::Array sentences;
  for (const std::string& note : notes) {
    const ValueNode sentence(note, appliance.pointer(), appliance.line());
    sentences.push_back(sentence);
  }
  ValueNode::Members members = *appliance.members();
  const ValueNode assumed(std::move(sentences), appliance.pointer(), appliance.line());
  members.emplace_back("assumed", assumed);
  return {std::move(members), appliance.pointer(), appliance.line()};
}

}  // namespace

Kit::Kit(Document document) : document_(std::move(document)) {
  std::vector<Problem> problems;
  for (const ValueNode& entry : list_of(document_.root, "questions"))
    questions_.push_back(read_question(entry, problems));
  if (questions_.empty()) problems.push_back(document_.root.problem("a kit has \"questions\""));
  for (const char* section : {"appliance", "splice"})
    if (const ValueNode* node = document_.root.find(section); node == nullptr || node->members() == nullptr)
      problems.push_back(document_.root.problem("a kit has an object \"" + std::string(section) + "\""));
  refuse_if_any(document_.file, std::move(problems));
}

const KitChoice& Kit::choice(const KitQuestion& question, const KitAnswers& answers) const {
  const auto answer = answers.find(question.id);
  if (answer == answers.end()) return question.choices.back();
  const auto found = std::find_if(question.choices.begin(), question.choices.end(),
                                  [&](const KitChoice& one) { return one.id == answer->second; });
  if (found != question.choices.end()) return *found;
  throw InputError("the question " + question.id + " has no answer " + ohmwright::quoted(answer->second) +
                   suggestion(answer->second, ids_of(question.choices)));
}

ValueNode Kit::build(const KitAnswers& answers) const {
  const std::vector<std::string> ids = ids_of(questions_);
  for (const auto& [id, answer] : answers)
    if (std::find(ids.begin(), ids.end(), id) == ids.end())
      throw InputError("there is no question " + ohmwright::quoted(id) + suggestion(id, ids));
  KitAnswers built;
  for (const KitQuestion& question : questions_) {
    const KitChoice& taken = choice(question, answers);
    built[question.id] = taken.stands_for.empty() ? taken.id : taken.stands_for;
    built[question.id + " is"] = taken.stands_for.empty() ? "said" : "assumed";
  }
  const ValueNode filled = Filling(std::move(built)).fill(*document_.root.find("appliance")).value_or(ValueNode());
  return with_assumed(filled, notes(answers));
}

std::vector<std::string> Kit::notes(const KitAnswers& answers) const {
  std::vector<std::string> notes;
  for (const KitQuestion& question : questions_)
    if (const std::string& note = choice(question, answers).note; !note.empty()) notes.push_back(note);
  return notes;
}

const ValueNode& Kit::splice() const { return *document_.root.find("splice"); }

}  // namespace ohmwright
