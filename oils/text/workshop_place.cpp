#include "oils/text/workshop_place.hpp"

#include <filesystem>

namespace barwright::oils {

std::optional<yaml::Document> workshop_document(const std::string& folder) {
  namespace fs = std::filesystem;
  const fs::path path = fs::path(folder) / kWorkshopFile;
  std::error_code none;
  if (!fs::is_regular_file(path, none)) return std::nullopt;
  yaml::Document out = yaml::Document::from_file(path.string());
  out.root().need("workshop");
  return out;
}

}  // namespace barwright::oils
