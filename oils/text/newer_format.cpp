#include "oils/text/newer_format.hpp"

#include "oils/text/yaml.hpp"

namespace barwright::oils {

std::string newer_format(const std::string& what, const std::string& format) {
  return "this " + what + " is of format " + format +
         ", written for a newer barwright; this one reads formats up to " +
         std::to_string(yaml::kFormat);
}

}  // namespace barwright::oils
