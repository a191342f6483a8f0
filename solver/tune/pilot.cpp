#include "solver/tune/pilot.hpp"

#include <Eigen/Dense>
#include <cmath>

namespace barwright::tune {
namespace {

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

double posterior(const NotesModel& model, const std::vector<double>& z) {
  double sum = model.log_likelihood(z);
  for (const double one : z) sum -= one * one / 2;
  return sum;
}

struct Local {
  Matrix slopes;         // of each saying's predictor, one row per saying
  Eigen::VectorXd pull;  // of its log likelihood by its predictor
  Eigen::VectorXd held;  // how firmly it holds it: minus the second slope, never below 0
};

Local local(const NotesModel& model, std::vector<double> z) {
  const std::vector<double> here = model.predictors(z);
  const auto n = static_cast<Eigen::Index>(here.size());
  Local out;
  out.slopes.resize(n, static_cast<Eigen::Index>(z.size()));
  for (std::size_t i = 0; i < z.size(); ++i) {
    // Wide enough to see past the corners of bends.
    constexpr double kMove = 0.05;
    const double was = z[i];
    z[i] = was + kMove;
    const std::vector<double> there = model.predictors(z);
    z[i] = was;
    for (Eigen::Index k = 0; k < n; ++k)
      out.slopes(k, static_cast<Eigen::Index>(i)) =
          (there[static_cast<std::size_t>(k)] - here[static_cast<std::size_t>(k)]) / kMove;
  }
  out.pull.resize(n);
  out.held.resize(n);
  for (Eigen::Index k = 0; k < n; ++k) {
    const auto saying = static_cast<std::size_t>(k);
    constexpr double kMove = 1e-3;
    const double low = model.saying_at(saying, here[saying] - kMove, z);
    const double middle = model.saying_at(saying, here[saying], z);
    const double high = model.saying_at(saying, here[saying] + kMove, z);
    out.pull[k] = (high - low) / (2 * kMove);
    out.held[k] = std::max(0.0, -(high - 2 * middle + low) / (kMove * kMove));
  }
  return out;
}

Matrix precision(const Local& at) {
  const auto d = at.slopes.cols();
  return Matrix::Identity(d, d) + at.slopes.transpose() * at.held.asDiagonal() * at.slopes;
}

}  // namespace

Fit pilot(const NotesModel& model) {
  const std::size_t d = model.size();
  std::vector<double> z(d, 0.0);
  double best = posterior(model, z);
  constexpr int kSteps = 8;
  for (int step = 0; step < kSteps; ++step) {
    const Local at = local(model, z);
    const Eigen::Map<const Eigen::VectorXd> here(z.data(), static_cast<Eigen::Index>(d));
    const Eigen::VectorXd way = precision(at).llt().solve(at.slopes.transpose() * at.pull - here);
    bool moved = false;
    for (double part = 1; part > 0.05; part /= 2) {
      std::vector<double> there = z;
      for (std::size_t i = 0; i < d; ++i) there[i] += part * way[static_cast<Eigen::Index>(i)];
      const double found = posterior(model, there);
      if (!(found > best + 1e-3)) continue;
      best = found;
      z = std::move(there);
      moved = true;
      break;
    }
    if (!moved) break;
  }
  // What the notes hold firmly, direction by direction. The likeliest state is surer of itself than
  // all states together: slips and noise may be more than there. Half as sure is a better start.
  constexpr double kAsSure = 0.5;
  constexpr double kWorth = 0.05;  // beside 1, what is known beforehand
  const Eigen::SelfAdjointEigenSolver<Matrix> solved(precision(local(model, z)));
  Fit out;
  const Eigen::Map<const Eigen::VectorXd> here(z.data(), static_cast<Eigen::Index>(d));
  for (Eigen::Index k = 0; k < solved.eigenvalues().size(); ++k) {
    const double held = solved.eigenvalues()[k] - 1;
    if (!(held > kWorth)) continue;
    const Eigen::VectorXd way = solved.eigenvectors().col(k);
    out.directions.emplace_back(way.data(), way.data() + way.size());
    out.mean.push_back(way.dot(here));
    out.spread.push_back(1 / std::sqrt(1 + kAsSure * held));
  }
  return out;
}

}  // namespace barwright::tune
