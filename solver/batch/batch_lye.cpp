#include "solver/batch/batch_lye.hpp"

#include <algorithm>
#include <string>

#include "solver/batch/part_lye.hpp"
#include "targets/files/lye_file_reader.hpp"

namespace barwright::batch {
namespace {

using targets::LyeWish;

/// A strength the batch states is used where some part has that alkali and no strength of its own.
void check_strengths(const targets::BatchFile& file) {
  LyeWish batch = file.own_lye;  // a workshop states its jars, whether or not they are opened
  const auto used = [&](LyeWish::Alkali other, const auto& strength) {
    return std::any_of(file.parts.begin(), file.parts.end(), [&](const targets::Part& part) {
      return merged(file.lye, part.lye).alkali.value_or(LyeWish::Alkali::sodium) != other &&
             !(part.lye.*strength);
    });
  };
  if (used(LyeWish::Alkali::potassium, &LyeWish::naoh_strength)) batch.naoh_strength.reset();
  if (used(LyeWish::Alkali::sodium, &LyeWish::koh_strength)) batch.koh_strength.reset();
  for (const auto* left : {&batch.naoh_strength, &batch.koh_strength}) {
    if (!*left) continue;
    (*left)->written.fail(std::string("the strength of ") +
                              (left == &batch.naoh_strength ? "sodium" : "potassium") +
                              " hydroxide bears on nothing: no part's lye is dosed by it",
                          "Take it out, or name that alkali under 'alkali'.");
  }
  for (const auto& part : file.parts) {
    LyeWish own = part.lye;
    own.alkali = merged(file.lye, part.lye).alkali;
    targets::check_strengths_used(own);
  }
}

}  // namespace

void check_lye_used(const targets::BatchFile& file) {
  check_strengths(file);
  const auto all = [&](const auto& has) {
    return std::all_of(file.parts.begin(), file.parts.end(),
                       [&](const targets::Part& part) { return has(part.lye); });
  };
  const auto refuse = [&](const char* key) {
    const auto& block = file.own_lye.written;
    const auto line = block.node.is_map() ? block.node.get(key) : std::nullopt;
    const std::string message =
        std::string("'") + key + "' of the batch bears on nothing: every part says its own";
    const char* remedy = "Take it out here, or in the parts.";
    if (line) line->fail(message, remedy);
    block.fail(message, remedy);
  };
  const auto water = [](const LyeWish& lye) {
    return lye.concentration || lye.water_per_alkali || lye.water_of_oils;
  };
  const auto& lye = file.own_lye;
  if (lye.superfat && all([](const LyeWish& one) { return one.superfat.has_value(); }))
    refuse("superfat");
  if (lye.lye_celsius && all([](const LyeWish& one) { return one.lye_celsius.has_value(); }) &&
      file.lye_pot != targets::BatchFile::LyePot::one)
    refuse("lye-at");
  if (lye.oils_celsius && all([](const LyeWish& one) { return one.oils_celsius.has_value(); }))
    refuse("oils-at");
  if (water(lye) && all(water))
    refuse(lye.concentration ? "concentration" : lye.water_per_alkali ? "water-ratio" : "water");
}

}  // namespace barwright::batch
