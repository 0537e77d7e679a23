// Pages as the bytes of a file.
//
// The same pages give the same bytes on every run: files carry a fixed date,
// and nothing of the machine they were made on but its fonts.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "stakewright/drawing/page.hpp"

namespace stakewright::drawing {

/// All pages as one PDF, fonts embedded, text searchable.
std::string pdf(const std::vector<Page>& pages, std::string_view title);

/// One page as SVG, with the page's title and description as text; the letters
/// on the page are outlines, and look the same everywhere.
std::string svg(const Page& page);

inline constexpr int kNarrowestPicture_px = 64;
inline constexpr int kWidestPicture_px = 10000;

/// One page as PNG on white, `width_px` pixels wide.
/// Throws InputError outside `kNarrowestPicture_px` to `kWidestPicture_px`.
std::string png(const Page& page, int width_px);

}  // namespace stakewright::drawing
