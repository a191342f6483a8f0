#include "solver/batch/part_size.hpp"

namespace barwright::batch {

std::vector<PartSize> part_sizes(const BatchPlan& batch, const std::vector<double>& oils) {
  using List = std::vector<targets::Addition> targets::LyeWish::*;
  const auto& parts = batch.file.parts;
  const auto share = [&](std::size_t at, List list) {
    if (!(parts[at].lye.*list).empty()) return 1.0;
    double all = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if ((parts[i].lye.*list).empty()) all += oils[i];
    }
    return oils[at] / all;
  };
  std::vector<PartSize> out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    out.push_back({oils[i],
                   batch.bars,
                   share(i, &targets::LyeWish::acids),
                   share(i, &targets::LyeWish::liquids),
                   share(i, &targets::LyeWish::into_lye),
                   {}});
  }
  std::map<std::string, double> wanted;
  const auto want = [&](const std::string& oil, double grams) {
    for (const auto& premix : batch.file.premixes) {
      if (premix.name != oil) continue;
      for (const auto& one : premix.blend.oils) wanted[one.oil.name] += one.share * grams;
      return;
    }
    wanted[oil] += grams;
  };
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const auto& one : parts[i].blend.oils) want(one.oil.name, one.share * oils[i]);
    const auto& wet = parts[i].wet_colour_with;
    if (wet && !(wet->from_blend && wet->in_blend)) {
      for (const auto& colour : parts[i].colours)
        want(wet->oil.name, colour.with.empty() ? 0 : wet->each_grams);
    }
  }
  for (auto& size : out) size.wanted = wanted;
  return out;
}

}  // namespace barwright::batch
