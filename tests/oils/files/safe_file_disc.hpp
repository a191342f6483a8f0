#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "oils/files/safe_file.hpp"

namespace barwright::tests {

/// Thrown where the power is cut.
struct PowerCut {};

/// A disc in memory that keeps apart what programs see and what would survive a power cut: bytes
/// survive once synced, names once their folder is synced. It can be cut after any number of steps,
/// where a step is one byte written or one other operation, or be made to fail there (disc full).
class Disc : public oils::FileOps {
 public:
  enum class Then {
    never,
    cut,  ///< the power goes: PowerCut
    full  ///< the operation fails, the program lives on: FileError
  };
  /// What is found on the disc after a cut.
  enum class Survives {
    everything,                 ///< only the program died
    synced,                     ///< names and bytes that were synced
    names_unsynced_bytes_lost,  ///< names at once, but bytes never synced are gone (empty file)
    bytes_half                  ///< as above, but half of the unsynced bytes made it
  };

  std::map<std::string, std::string> files;  ///< as programs see them
  Then then = Then::never;
  long cut_after = 0;  ///< steps
  long steps = 0;      ///< taken so far

  std::optional<std::string> read(const std::string& path) override;
  int create(const std::string& path, const std::vector<std::string>& like) override;
  void write(int file, std::string_view bytes) override;
  void sync(int file) override;
  void close(int file) noexcept override;
  void rename(const std::string& from, const std::string& to) override;
  void remove(const std::string& path) override;
  void sync_folder(const std::string& folder) override;

  /// Declares everything there now to be safe on the disc.
  void settle();
  /// Returns the files found after a cut.
  std::map<std::string, std::string> after_cut(Survives survives) const;

  bool skip_sync = false;  ///< a broken writer: sync does nothing (to see the tests go red)

 private:
  struct Node {
    std::string bytes, synced;
  };
  void step(const std::string& path, const char* doing);

  int next_ = 3;
  std::map<int, std::string> open_;             // handle -> path
  std::map<std::string, std::size_t> names_;    // seen -> node
  std::map<std::string, std::size_t> on_disc_;  // names that would survive
  std::vector<Node> nodes_;
  void show();
};

}  // namespace barwright::tests
