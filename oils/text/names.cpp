#include "oils/text/names.hpp"

#include <algorithm>
#include <numeric>

#include "oils/text/yaml_text.hpp"

namespace barwright::oils::yaml {

std::string nearest_name(std::string_view word, const std::vector<std::string>& known) {
  const std::string wanted = folded(word);
  std::string best;
  // A third of the letters may be wrong, never more than three.
  std::size_t best_distance = std::clamp<std::size_t>(wanted.size() / 3, 1, 3) + 1;
  for (const std::string& candidate : known) {
    const std::string other = folded(candidate);
    const std::size_t gap =
        other.size() > wanted.size() ? other.size() - wanted.size() : wanted.size() - other.size();
    if (gap >= best_distance) continue;
    // Edit distance where two swapped neighbours count as one slip (optimal string alignment).
    std::vector<std::size_t> before(other.size() + 1), row(other.size() + 1),
        next(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= wanted.size(); ++i) {
      next[0] = i;
      for (std::size_t j = 1; j <= other.size(); ++j) {
        const std::size_t change = wanted[i - 1] == other[j - 1] ? 0 : 1;
        next[j] = std::min({row[j] + 1, next[j - 1] + 1, row[j - 1] + change});
        if (i > 1 && j > 1 && wanted[i - 1] == other[j - 2] && wanted[i - 2] == other[j - 1])
          next[j] = std::min(next[j], before[j - 2] + 1);
      }
      std::swap(before, row);
      std::swap(row, next);
    }
    if (row.back() < best_distance) {
      best_distance = row.back();
      best = candidate;
    }
  }
  return best;
}

core::Remedy did_you_mean(const std::string& near, const std::string& rest) {
  if (near.empty()) return rest;
  return {"Did you mean '" + near + "'?" + (rest.empty() ? "" : " " + rest), {near}};
}

core::Remedy nearest_and_known(std::string_view word, const std::vector<std::string>& known) {
  return did_you_mean(nearest_name(word, known), "Known here: " + one_of(known) + ".");
}

std::string one_of(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

}  // namespace barwright::oils::yaml
