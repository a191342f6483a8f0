#include "targets/brief/wish_reader.hpp"

#include <fmt/format.h>

#include "oils/text/names.hpp"
#include "oils/text/yaml_text.hpp"
#include "targets/brief/brief_yardstick_reader.hpp"
#include "targets/brief/wish.hpp"
#include "targets/brief/wish_phrase.hpp"
#include "targets/brief/wish_subject.hpp"
#include "targets/files/oil_rules_blend.hpp"
#include "targets/files/oil_rules_reader.hpp"

namespace barwright::targets {

namespace yaml = oils::yaml;
using yaml::Node;

std::vector<Wish> read_wish(const Node& key, const Node& value) {
  const Subject subject = read_subject(key);
  if (value.is_null())
    key.fail("'" + key.text() + "' has no wish", "Write one, such as 'at least 5 above'.");
  std::vector<Wish> wishes;
  const auto add = [&](std::vector<Wish> more) {
    wishes.insert(wishes.end(), std::make_move_iterator(more.begin()),
                  std::make_move_iterator(more.end()));
  };
  if (value.is_map()) {
    Block block(value);
    const Node wish = block.need("wish");
    const auto level = block.take({"level", "sureness"});
    block.done();
    add(read_wish_phrases(key.text(), wish, subject));
    for (Wish& each : wishes) {
      if (level && each.level)
        level->fail("how sure is said twice", "Keep it here or in the wish.");
      if (level) each.level = read_sureness(*level);
    }
    return wishes;
  }
  core::Faults::each(list_of(value),
                     [&](const Node& item) { add(read_wish_phrases(key.text(), item, subject)); });
  return wishes;
}

std::vector<Wish> read_wishes(const Node& want) {
  std::vector<Wish> wishes;
  Block block(want);  // refuses a key that stands twice
  if (want.entries().empty())
    want.fail("no wish stands here", "Write one, such as 'hardness: clearly more'.");
  take_wishes(block, {}, wishes);
  block.done();
  return wishes;
}

void take_wishes(Block& block, std::initializer_list<const char*> others,
                 std::vector<Wish>& wishes) {
  for (const auto& entry : block.take_rest())
    block.faults().of([&] {
      const Node& key = entry.first;
      for (const std::string known : others)
        if (oils::yaml::nearest_name(key.text(), {known}) == known)
          key.fail("unknown key '" + key.text() + "'", oils::yaml::did_you_mean(known));
      for (Wish& wish : read_wish(key, entry.second)) wishes.push_back(std::move(wish));
    });
}

const Written* needs_yardstick(const std::vector<Wish>& wishes, const std::vector<Goal>& goals) {
  for (const Wish& wish : wishes)
    if (wish.compared && wish.than.empty()) return &wish.written;
  for (const Goal& goal : goals) {
    if (goal.kind == Goal::Kind::nearest_in_feel && goal.feel_of.empty()) return &goal.written;
    for (const WishedPoint& point : goal.points)
      if (point.compared) return &goal.written;
    if (const Written* part = needs_yardstick({}, goal.parts)) return part;
  }
  return nullptr;
}

namespace {

constexpr const char* kGoalForms =
    "Write cheapest, most hardness (or another property), least iodine value, nearest in feel, use "
    "up rice bran, fewest oils, or {nearest: {hardness: 60, lather: 45}}.";

WishedPoint read_point(const Node& key, const Node& value) {
  WishedPoint point;
  point.subject = read_subject(key);
  if (point.subject.kind == Subject::Kind::oil_cost)
    key.fail("a cost is no point to come near to", "Write a ceiling on it under 'limits: cost:'.");
  Node at = value;
  if (value.is_map()) {
    Block block(value);
    at = block.need("at");
    block.read("weight", [&](const Node& weight) {
      point.weight = above_zero(weight.number(), weight, "a weight");
    });
    block.done();
  }
  Phrase phrase(at);
  const std::string remedy = "Write a figure such as 60, '5 above' or 'as now'.";
  if (phrase.take_any({"as now", "now"})) {
    point.compared = true;
  } else {
    const std::size_t start = phrase.mark();
    point.value = take_amount(phrase, point.subject, true);
    if (phrase.take_any({"above", "more"})) {
      point.compared = true;
    } else if (phrase.take_any({"below", "less"})) {
      point.compared = true;
      point.value = -point.value;
    } else {
      phrase.back(start);
      point.value = take_amount(phrase, point.subject, false);
    }
  }
  phrase.end({"above", "below", "as", "now"}, remedy);
  return point;
}

std::vector<WishedPoint> read_points(const Node& node) {
  Block block(node);
  std::vector<WishedPoint> points;
  for (const auto& entry : block.take_rest())
    block.faults().of([&] { points.push_back(read_point(entry.first, entry.second)); });
  block.done();
  if (points.empty()) node.fail("no point stands here", "Write one, such as {hardness: 60}.");
  return points;
}

Goal read_goal(const Node& node, const Reading& reading);

Goal goal_block(const Node& node, const Reading& reading) {
  Block block(node);
  block.one_only({"nearest", "nearest to", "weighted", "goal"});
  block.settle();
  Goal goal;
  if (auto points = block.take({"nearest", "nearest to"})) {
    goal.kind = Goal::Kind::nearest;
    goal.points = read_points(*points);
  } else if (auto parts = block.take("weighted")) {
    goal.kind = Goal::Kind::weighted;
    for (const Node& item : list_of(*parts)) {
      Block part(item);
      Goal read = read_goal(part.need("goal"), reading);
      if (read.kind == Goal::Kind::weighted || read.kind == Goal::Kind::fewest_oils)
        item.fail("this goal cannot be part of a mix", "Mix goals that are amounts.");
      const Node weight = part.need("weight");
      read.weight = above_zero(weight.number(), weight, "a weight");
      part.done();
      goal.parts.push_back(std::move(read));
    }
  } else {
    goal = read_goal(block.need("goal"), reading);
  }
  if (auto give = block.take("give")) {
    goal.give = give->number();
    if (goal.give < 0) give->fail("'" + give->text() + "' is below zero", "Write 0 or more.");
  }
  block.done();
  return goal;
}

Goal read_goal(const Node& node, const Reading& reading) {
  if (node.is_map()) {
    Goal goal = goal_block(node, reading);
    goal.written = written(node);
    return goal;
  }
  Goal goal;
  goal.written = written(node);
  Phrase phrase(node);
  if (phrase.done()) node.fail("the text is empty", kGoalForms);
  const std::string text = node.text();
  if (phrase.take_any({"cheapest", "lowest cost", "least cost", "lowest oil cost"})) {
    goal.kind = Goal::Kind::cheapest;
  } else if (phrase.take("fewest oils")) {
    goal.kind = Goal::Kind::fewest_oils;
  } else if (phrase.take_any({"most", "highest", "least", "lowest"})) {
    phrase.back(0);
    const bool most = phrase.take_any({"most", "highest"});
    if (!most) phrase.skip();
    goal.kind = most ? Goal::Kind::most : Goal::Kind::least;
    if (phrase.done()) phrase.fail("'" + text + "' does not say of what", kGoalForms);
    const std::string rest = phrase.take_rest();
    goal.subject = read_subject(node, rest, text.rfind(rest));
    if (goal.subject.kind == Subject::Kind::oil_cost) {
      if (most) node.fail("the highest cost is no goal", kGoalForms);
      goal.kind = Goal::Kind::cheapest;
    }
  } else if (phrase.take_any({"nearest in feel", "nearest feel"})) {
    goal.kind = Goal::Kind::nearest_in_feel;
    if (phrase.take("to") && !phrase.take_any({"now", "the yardstick"})) {
      const std::string bar = phrase.rest();
      goal.feel_of = find_shipped(bar);
      if (goal.feel_of.empty())
        phrase.fail("no shipped yardstick is called '" + bar + "'", shipped_remedy(bar));
      phrase.take_rest();
    }
  } else if (phrase.take("use up")) {
    goal.kind = Goal::Kind::use_up;
    const std::string rest = phrase.take_rest();
    if (rest.empty()) node.fail("'use up' does not say which oil", kGoalForms);
    goal.oil = read_oil(node, rest, text.rfind(rest), reading).name;
  } else {
    phrase.end({"cheapest", "most", "least", "nearest", "fewest", "use"}, kGoalForms);
  }
  phrase.end({}, kGoalForms);
  return goal;
}

}  // namespace

std::vector<Goal> read_goals(const Node& node, const Reading& reading) {
  std::vector<Goal> goals;
  core::Faults::each(list_of(node),
                     [&](const Node& item) { goals.push_back(read_goal(item, reading)); });
  return goals;
}

}  // namespace barwright::targets
