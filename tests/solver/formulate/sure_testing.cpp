#include "tests/solver/formulate/sure_testing.hpp"

#include <algorithm>
#include <numeric>

namespace barwright::testing {

const oils::Library& whole_library() {
  static const oils::Library all = oils::Library::embedded();
  return all;
}

std::vector<formulate::Candidate> candidates_of(const std::vector<std::string>& names) {
  std::vector<formulate::Candidate> out;
  for (const std::string& name : names) {
    formulate::Candidate one;
    one.oil = *whole_library().find(name);
    one.composition = targets::composition(one.oil);
    out.push_back(std::move(one));
  }
  return out;
}

formulate::KnownBar bar_of(const std::vector<formulate::Candidate>& candidates,
                           const std::vector<double>& shares) {
  formulate::KnownBar bar;
  bar.name = "a known bar";
  bar.composition = formulate::mixed(candidates, shares);
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (shares[i] > 0) bar.parts.push_back({candidates[i].oil, shares[i]});
  return bar;
}

std::vector<double> drawn_shares(Uniform& draw, std::size_t oils, int used) {
  std::vector<double> x(oils, 0.0);
  for (int k = 0; k < used; ++k)
    x[static_cast<std::size_t>(draw.whole(0, static_cast<int>(oils) - 1))] += 0.05 + draw();
  const double sum = std::accumulate(x.begin(), x.end(), 0.0);
  for (double& v : x) v /= sum;
  return x;
}

targets::Subject property_subject(targets::Property property) {
  targets::Subject subject;
  subject.kind = targets::Subject::Kind::property;
  subject.property = property;
  subject.name = std::string(targets::name(property));
  return subject;
}

std::vector<targets::Composition> drawn_lots(const formulate::LotBook& book,
                                             std::mt19937_64& bits) {
  std::vector<targets::Composition> out;
  for (const auto& range : book.ranges) out.push_back(targets::draw_lot(range, bits));
  return out;
}

}  // namespace barwright::testing
