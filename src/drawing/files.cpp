#include "stakewright/drawing/files.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "paint.hpp"
#include "stakewright/base/error.hpp"

namespace stakewright::drawing {
namespace {

// Any date will do so long as it never changes: a page is made from a job, not from a clock.
constexpr const char* kFixedDate = "2000-01-01T00:00:00Z";

struct Destroy {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, Destroy>;
using Context = std::unique_ptr<cairo_t, Destroy>;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// Out of memory is what is left to go wrong.
void expect_well(cairo_status_t status) {
  if (status == CAIRO_STATUS_SUCCESS) return;
  throw std::runtime_error(fmt::format("the drawing failed: {}", cairo_status_to_string(status)));
}

void paint_on(cairo_surface_t* surface, const Page& page) {
  const Context cairo(cairo_create(surface));
  paint(cairo.get(), page);
  cairo_show_page(cairo.get());
  expect_well(cairo_status(cairo.get()));
}

std::string as_xml(std::string_view text) {
  std::string escaped;
  for (const char c : text) {
    switch (c) {
      case '&':
        escaped += "&amp;";
        break;
      case '<':
        escaped += "&lt;";
        break;
      case '>':
        escaped += "&gt;";
        break;
      default:
        // XML 1.0 has no place for other control characters.
        escaped += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return escaped;
}

/// Cairo numbers its surfaces through the life of the process; a page has no use for that.
void forget_surface_number(std::string& document) {
  constexpr std::string_view kId = "id=\"surface";
  const std::size_t at = document.find(kId);
  if (at == std::string::npos) return;
  const std::size_t digits = at + kId.size();
  document.erase(digits, document.find('"', digits) - digits);
}

}  // namespace

std::string pdf(const std::vector<Page>& pages, std::string_view title) {
  assert(!pages.empty());
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, pages.front().width_pt,
                                                            pages.front().height_pt));
  const std::string title_text(title);
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title_text.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "stakewright");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, kFixedDate);
  for (const Page& page : pages) {
    cairo_pdf_surface_set_size(surface.get(), page.width_pt, page.height_pt);
    paint_on(surface.get(), page);
  }
  cairo_surface_finish(surface.get());
  expect_well(cairo_surface_status(surface.get()));
  return bytes;
}

std::string svg(const Page& page) {
  std::string bytes;
  const Surface surface(
      cairo_svg_surface_create_for_stream(append, &bytes, page.width_pt, page.height_pt));
  paint_on(surface.get(), page);
  cairo_surface_finish(surface.get());
  expect_well(cairo_surface_status(surface.get()));

  forget_surface_number(bytes);
  // Cairo has no call for these two; they belong right after the opening tag.
  const std::size_t tag = bytes.find("<svg");
  const std::size_t end = bytes.find('>', tag);
  assert(tag != std::string::npos && end != std::string::npos);
  bytes.insert(end + 1, fmt::format("\n<title>{}</title>\n<desc>{}</desc>", as_xml(page.title),
                                    as_xml(page.description)));
  return bytes;
}

std::string png(const Page& page, int width_px) {
  if (width_px < kNarrowestPicture_px || width_px > kWidestPicture_px) {
    throw base::InputError(base::Fact{"errors.picture_width",
                                      {{"read", base::Number{static_cast<double>(width_px)}},
                                       {"least", base::Number{kNarrowestPicture_px}},
                                       {"most", base::Number{kWidestPicture_px}}}});
  }
  const double scale = width_px / page.width_pt;
  const int height_px = static_cast<int>(std::lround(page.height_pt * scale));
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width_px, height_px));
  {
    const Context cairo(cairo_create(surface.get()));
    cairo_set_source_rgb(cairo.get(), 1.0, 1.0, 1.0);
    cairo_paint(cairo.get());
    cairo_scale(cairo.get(), scale, scale);
    paint(cairo.get(), page);
    expect_well(cairo_status(cairo.get()));
  }
  std::string bytes;
  expect_well(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

}  // namespace stakewright::drawing
