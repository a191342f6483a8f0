#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "solver/optimise/relaxation/node.hpp"

namespace barwright::optimise {

/// The parts put aside: best bound first, of equal ones the newest. Once they fill their room, what
/// is put aside comes back first, so that a plunge ends without growing them.
class OpenNodes {
 public:
  /// `node_bytes`: about what one part takes.
  explicit OpenNodes(std::size_t node_bytes) : node_bytes_(node_bytes) {}

  void put(Node node);
  /// Returns the next part; null: none is left.
  std::unique_ptr<Node> take();
  void clear();
  /// Returns the least bound of all; infinite: none is left.
  double least_bound() const;

 private:
  std::size_t node_bytes_;
  std::uint64_t created_ = 0;
  std::vector<std::unique_ptr<Node>> heap_, stack_;
};

}  // namespace barwright::optimise
