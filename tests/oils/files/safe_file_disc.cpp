#include "tests/oils/files/safe_file_disc.hpp"

namespace barwright::tests {

void Disc::settle() {
  names_.clear();
  nodes_.clear();
  for (const auto& [path, bytes] : files) {
    names_[path] = nodes_.size();
    nodes_.push_back({bytes, bytes});
  }
  on_disc_ = names_;
  steps = 0;
}

void Disc::show() {
  files.clear();
  for (const auto& [path, node] : names_) files[path] = nodes_[node].bytes;
}

void Disc::step(const std::string& path, const char* doing) {
  if (then != Then::never && steps >= cut_after) {
    if (then == Then::cut) throw PowerCut{};
    then = Then::never;  // once
    throw oils::FileError(path, doing, "No space left on device");
  }
  ++steps;
}

std::optional<std::string> Disc::read(const std::string& path) {
  const auto found = names_.find(path);
  if (found == names_.end()) return std::nullopt;
  return nodes_[found->second].bytes;
}

int Disc::create(const std::string& path, const std::vector<std::string>&) {
  step(path, "make it");
  const auto found = names_.find(path);
  if (found == names_.end()) {
    names_[path] = nodes_.size();
    nodes_.push_back({});
  } else {
    nodes_[found->second].bytes.clear();
  }
  open_[next_] = path;
  show();
  return next_++;
}

void Disc::write(int file, std::string_view bytes) {
  const std::string path = open_.at(file);
  for (const char c : bytes) {
    step(path, "write it");
    nodes_[names_.at(path)].bytes += c;
  }
  show();
}

void Disc::sync(int file) {
  step(open_.at(file), "bring it to the disc");
  if (skip_sync) return;
  Node& node = nodes_[names_.at(open_.at(file))];
  node.synced = node.bytes;
}

void Disc::close(int file) noexcept { open_.erase(file); }

void Disc::rename(const std::string& from, const std::string& to) {
  step(to, "put it in place");
  names_[to] = names_.at(from);
  names_.erase(from);
  show();
}

void Disc::remove(const std::string& path) {
  step(path, "remove it");
  names_.erase(path);
  show();
}

void Disc::sync_folder(const std::string& folder) {
  step(folder, "bring the folder to the disc");
  on_disc_ = names_;
}

std::map<std::string, std::string> Disc::after_cut(Survives survives) const {
  std::map<std::string, std::string> out;
  const auto& names = survives == Survives::synced ? on_disc_ : names_;
  for (const auto& [path, index] : names) {
    const Node& node = nodes_[index];
    switch (survives) {
      case Survives::everything:
        out[path] = node.bytes;
        break;
      case Survives::synced:
      case Survives::names_unsynced_bytes_lost:
        out[path] = node.synced;
        break;
      case Survives::bytes_half:
        out[path] = node.synced == node.bytes
                        ? node.bytes
                        : node.bytes.substr(0, (node.synced.size() + node.bytes.size()) / 2);
        break;
    }
  }
  return out;
}

}  // namespace barwright::tests
