#include "targets/brief/brief.hpp"

#include <algorithm>
#include <filesystem>

#include "targets/brief/brief_reader.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/manners_reader.hpp"
#include "targets/brief/shared_keys.hpp"
#include "targets/brief/spoken_wish.hpp"
#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_reader.hpp"
#include "targets/files/lye_file_reader.hpp"
#include "targets/files/make_size_reader.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"
#include "targets/text/brief_block.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Document;
using yaml::Node;

namespace {

// What was said comes before the goals that stand in 'best', and beside the limits.
void add_spoken(Spoken spoken, Brief& brief) {
  for (Wish& wish : spoken.wishes) brief.wishes.push_back(std::move(wish));
  brief.goals.insert(brief.goals.begin(), spoken.goals.begin(), spoken.goals.end());
  auto& rules = brief.rules;
  for (const OilLimit& limit : spoken.rules.oils) {
    for (const OilLimit& other : rules.oils)
      if (other.oil.name == limit.oil.name)
        limit.written.fail(
            limit.oil.name + " is limited twice: here and as '" + other.written.text + "'",
            "Leave one of the two out.");
    rules.oils.push_back(limit);
  }
  rules.barred.insert(rules.barred.begin(), spoken.rules.barred.begin(), spoken.rules.barred.end());
  // "without coconut", and nothing else: the bar stays as near to the one in the hand as it can.
  const bool of_oils = !spoken.rules.oils.empty() || !spoken.rules.barred.empty();
  if (!of_oils || !brief.compared_with || !brief.wishes.empty() || !brief.goals.empty()) return;
  Goal goal;
  goal.kind = Goal::Kind::nearest_in_feel;
  goal.written = spoken.rules.oils.empty() ? spoken.rules.barred.front().written
                                           : spoken.rules.oils.front().written;
  goal.written.text = "nearest in feel";
  brief.goals.push_back(std::move(goal));
}

Brief read_root(const Node& root, const std::string& file, const Reading& reading) {
  Brief brief;
  brief.file = file;
  brief.folder = reading.folder;
  Block block(root);
  block.need("brief", [&](const Node& node) { brief.name = plain_text(node); });
  block.read("compared-with",
             [&](const Node& node) { brief.compared_with = read_yardstick(node, reading); });
  Spoken spoken;
  block.read("want", [&](const Node& node) {
    if (node.is_map())
      brief.wishes = read_wishes(node);
    else
      spoken = read_spoken(node, reading, brief.compared_with);
  });
  read_goal_keys(block, reading, brief.goals);
  read_rule_keys(block, reading, brief.rules, brief.wishes);
  block.faults().of([&] { add_spoken(std::move(spoken), brief); });
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
