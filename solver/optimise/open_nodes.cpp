#include "solver/optimise/open_nodes.hpp"

#include <algorithm>
#include <utility>

namespace barwright::optimise {
namespace {

constexpr std::size_t kOpenBytes = std::size_t(24) << 20;  // parts put aside, at most

bool later(const std::unique_ptr<Node>& a, const std::unique_ptr<Node>& b) {
  if (a->bound != b->bound) return a->bound > b->bound;
  return a->order < b->order;  // newest first: deeper
}

}  // namespace

void OpenNodes::put(Node node) {
  auto one = std::make_unique<Node>(std::move(node));
  one->order = created_++;
  if (heap_.size() * node_bytes_ > kOpenBytes) {
    stack_.push_back(std::move(one));
  } else {
    heap_.push_back(std::move(one));
    std::push_heap(heap_.begin(), heap_.end(), later);
  }
}

std::unique_ptr<Node> OpenNodes::take() {
  if (stack_.empty() && heap_.empty()) return nullptr;
  if (stack_.empty()) std::pop_heap(heap_.begin(), heap_.end(), later);
  auto& from = stack_.empty() ? heap_ : stack_;
  auto next = std::move(from.back());
  from.pop_back();
  return next;
}

void OpenNodes::clear() {
  heap_.clear();
  stack_.clear();
}

double OpenNodes::least_bound() const {
  double least = kInfinity;
  for (const auto* nodes : {&heap_, &stack_})
    for (const auto& node : *nodes) least = std::min(least, node->bound);
  return least;
}

}  // namespace barwright::optimise
