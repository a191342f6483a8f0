#include "targets/brief/brief_reader.hpp"

#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_reader.hpp"

namespace barwright::targets {

using oils::yaml::Node;

void read_goal_keys(Block& block, const Reading& reading, std::vector<Goal>& goals) {
  const bool best = block.has("best");
  block.read("best", [&](const Node& node) { goals = read_goals(node, reading); });
  block.read("then", [&](const Node& node) {
    if (!best)
      node.fail("'then' without 'best'", "Write what is best first: 'best: most hardness'.");
    for (Goal& goal : read_goals(node, reading)) goals.push_back(std::move(goal));
  });
}

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

}  // namespace barwright::targets
