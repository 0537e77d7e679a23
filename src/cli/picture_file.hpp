// A drawing named by -o: it is made by the program beside this one.
#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace stakewright::cli {

/// Endings of drawings, after those of the command's other files.
std::vector<std::string> with_pictures(std::vector<std::string> endings);

/// Whether that file is a drawing: .pdf, .svg or .png.
bool is_picture(const std::string& path);

/// Has the drawing of a command ("layout", "check", "carry") made when -o names one.  Returns 0,
/// also when it does not, or the exit status with which the drawing program refused; it has said
/// why.  Throws InputError for --drawing, --width or --paper where nothing is drawn.
int draw_picture(const std::string& command, const Options& options);

}  // namespace stakewright::cli
