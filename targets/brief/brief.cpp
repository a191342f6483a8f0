#include "targets/brief/brief.hpp"

#include <algorithm>
#include <filesystem>

#include "targets/brief/brief_reader.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/manners_reader.hpp"
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

namespace {

void read_goal_keys(Block& block, const Reading& reading, std::vector<Goal>& goals) {
  const auto best = block.take("best");
  const auto then = block.take("then");
  if (then && !best)
    then->fail("'then' without 'best'", "Write what is best first: 'best: most hardness'.");
  if (best) goals = read_goals(*best, reading);
  if (then)
    for (Goal& goal : read_goals(*then, reading)) goals.push_back(std::move(goal));
}

Brief read_root(const Node& root, const std::string& file, const Reading& reading) {
  Brief brief;
  brief.file = file;
  brief.folder = reading.folder;
  Block block(root);
  brief.name = plain_text(block.need("brief"));
  if (auto node = block.take("compared-with")) brief.compared_with = read_yardstick(*node, reading);
  std::vector<Goal> spoken;
  if (auto node = block.take("want")) {
    if (node->is_map())
      brief.wishes = read_wishes(*node);
    else
      read_spoken(*node, reading, brief.wishes, spoken, brief.rules);
  }
  read_goal_keys(block, reading, brief.goals);
  brief.goals.insert(brief.goals.begin(), spoken.begin(), spoken.end());
  if (auto node = block.take("limits")) {
    Block limits(*node);
    take_cost(limits, brief.wishes);
    read_limits(limits, reading, brief.rules);
  }
  if (auto node = block.take("not")) read_barred(*node, reading, brief.rules);
  if (auto node = block.take({"tag rules", "tags"})) read_tag_rules(*node, reading, brief.rules);
  if (auto node = block.take("manners")) brief.rules.manners = read_manners_wish(*node);
  if (auto node = block.take("cost")) read_cost("cost", *node, brief.wishes);
  if (auto node = block.take("make")) brief.make = read_make(*node);
  if (auto node = block.take("lye")) brief.lye = read_lye(*node);
  if (auto node = block.take("scale")) brief.scale = read_scale(*node);
  if (auto node = block.take({"sureness", "level"})) brief.sureness = read_sureness(*node);
  if (auto node = block.take("shelf")) brief.shelf = file_name(*node, reading);
  brief.oils_from = read_oils_from(block.need("oils-from"), reading);
  block.done();

  if (brief.wishes.empty() && brief.goals.empty())
    root.fail("the brief wishes for nothing",
              "Add 'want:' with at least one wish, or 'best:' with a goal.");
  check_yardstick(brief.compared_with.has_value(), brief.wishes, brief.goals);
  check_sizes(brief);
  return brief;
}

}  // namespace

void read_cost(const std::string& key, const Node& value, std::vector<Wish>& wishes) {
  Subject subject;
  subject.kind = Subject::Kind::oil_cost;
  subject.name = "oil cost";
  for (const Node& item : list_of(value))
    for (Wish& wish : read_wish_phrases(key, item, subject)) wishes.push_back(std::move(wish));
}

void take_cost(Block& block, std::vector<Wish>& wishes) {
  if (auto node = block.take({"cost", "oil-cost"})) read_cost("cost", *node, wishes);
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
