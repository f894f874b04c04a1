#pragma once

#include <string>
#include <vector>

namespace ohmwright {

/// A table for people: the first row names the columns, the first column stands left, the others right. Where it is
/// wider than `width`, each row becomes a line of its first cell, and below it the other cells, each with its name.
std::string text_table(const std::vector<std::vector<std::string>>& rows, int width);

}  // namespace ohmwright
