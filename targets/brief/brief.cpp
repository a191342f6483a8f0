#include "targets/brief/brief.hpp"

#include <algorithm>
#include <filesystem>

#include "targets/brief/brief_reader.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/manners_reader.hpp"
#include "targets/brief/shared_keys.hpp"
#include "targets/brief/spoken_wish.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

void read_goal_keys(Block& block, const Reading& reading, std::vector<Goal>& goals) {
  const bool best = block.has("best");
  block.read("best", [&](const Node& node) { goals = read_goals(node, reading); });
  block.read("then", [&](const Node& node) {
    if (!best)
      node.fail("'then' without 'best'", "Write what is best first: 'best: most hardness'.");
    for (Goal& goal : read_goals(node, reading)) goals.push_back(std::move(goal));
  });
}

namespace {

Brief read_root(const Node& root, const std::string& file, const Reading& reading) {
  Brief brief;
  brief.file = file;
  brief.folder = reading.folder;
  Block block(root);
  block.need("brief", [&](const Node& node) { brief.name = plain_text(node); });
  block.read("compared-with",
             [&](const Node& node) { brief.compared_with = read_yardstick(node, reading); });
  std::vector<Goal> spoken;
  block.read("want", [&](const Node& node) {
    if (node.is_map())
      brief.wishes = read_wishes(node);
    else
      read_spoken(node, reading, brief.wishes, spoken, brief.rules);
  });
  read_goal_keys(block, reading, brief.goals);
  brief.goals.insert(brief.goals.begin(), spoken.begin(), spoken.end());
  read_rule_keys(block, reading, brief.rules, brief.wishes);
  block.read("cost", [&](const Node& node) { read_cost("cost", node, brief.wishes); });
  read_batch_keys(block, reading, {brief.make, brief.lye, brief.scale, brief.sureness});
  block.read("shelf", [&](const Node& node) { brief.shelf = file_name(node, reading); });
  block.need("oils-from",
             [&](const Node& node) { brief.oils_from = read_oils_from(node, reading); });
  block.done();

  if (brief.wishes.empty() && brief.goals.empty())
    root.fail("the brief wishes for nothing",
              "Add 'want:' with at least one wish, or 'best:' with a goal.");
  core::Faults faults;
  faults.of([&] { check_yardstick(brief.compared_with.has_value(), brief.wishes, brief.goals); });
  faults.of([&] { check_sizes(brief); });
  faults.done();
  return brief;
}

}  // namespace

void read_cost(const std::string& key, const Node& value, std::vector<Wish>& wishes) {
  Subject subject;
  subject.kind = Subject::Kind::oil_cost;
  subject.name = "oil cost";
  core::Faults::each(list_of(value), [&](const Node& item) {
    for (Wish& wish : read_wish_phrases(key, item, subject)) wishes.push_back(std::move(wish));
  });
}

void take_cost(Block& block, std::vector<Wish>& wishes) {
  block.read({"cost", "oil-cost"}, [&](const Node& node) { read_cost("cost", node, wishes); });
}

void check_yardstick(bool present, const std::vector<Wish>& wishes,
                     const std::vector<Goal>& goals) {
  if (present) return;
  if (const Written* asked = needs_yardstick(wishes, goals))
    asked->fail("'" + asked->text + "' compares with a bar, but the file names none",
                "Add 'compared-with:' with the bar in the hand, or write a figure of its own.");
}

void check_sizes(const Brief& brief) {
  const bool counts_bars = brief.make && (brief.make->bars || brief.make->bars_per_batch);
  for (const Wish& wish : brief.wishes) {
    if (wish.subject.kind != Subject::Kind::oil_cost || wish.subject.currency.empty()) continue;
    if (wish.subject.per == Per::bar && !counts_bars)
      wish.written.fail("a cost per bar, but the file does not say how many bars",
                        "Add 'make: {bars: 36, each: 105 g, weighed: cured}', or 'bars:' beside "
                        "moulds or oils.");
    if (wish.subject.per == Per::batch && !brief.make)
      wish.written.fail("a cost per batch, but the file does not say how large a batch is",
                        "Add 'make:', such as 'make: {oils: 2600 g}'.");
  }
  if (brief.rules.step_grams && !brief.make)
    brief.rules.steps_written.fail("steps in grams, but 'make' does not say how much",
                                   "Add 'make:', or write steps in percent.");
}

Brief read_brief(const std::string& path, const oils::Library& library) {
  const Document document = Document::from_file(path);
  return read_root(document.root(), path,
                   {library, std::filesystem::path(path).parent_path().string()});
}

Brief read_brief_text(const std::string& text, const std::string& name, const std::string& folder,
                      const oils::Library& library) {
  const Document document = Document::from_text(text, name);
  return read_root(document.root(), name, {library, folder});
}

bool asks_for_any(const Brief& brief, const std::function<bool(const Subject&)>& such) {
  return std::any_of(brief.wishes.begin(), brief.wishes.end(),
                     [&](const Wish& wish) { return such(wish.subject); }) ||
         std::any_of(brief.goals.begin(), brief.goals.end(), [&](const Goal& goal) {
           return (goal.kind == Goal::Kind::most || goal.kind == Goal::Kind::least) &&
                  such(goal.subject);
         });
}

}  // namespace barwright::targets
