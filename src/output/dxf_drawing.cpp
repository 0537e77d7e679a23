// The one source that names dxflib.
#include "dxf_drawing.hpp"

#include <dxflib/dl_dxf.h>
#include <dxflib/dl_writer_ascii.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cmath>
#include <memory>
#include <system_error>

namespace stakewright::output {
namespace {

/// The unit of a drawing, and the finest step its figures are written to: 1 µm or finer.
struct Scale {
  double per_meter;
  double steps_per_unit;
  int unit_code;  ///< $INSUNITS
  int shown_as;   ///< $LUNITS: 2 decimal, 4 feet and inches
  int metric;     ///< $MEASUREMENT
};

// Inches, for "feet and inches" of a drawing takes its unit for an inch.
constexpr Scale kInches{1.0 / 0.0254, 1e5, 1, 4, 0};
constexpr Scale kMillimeters{1000.0, 1e3, 4, 2, 1};
constexpr Scale kMeters{1.0, 1e6, 6, 2, 1};

const Scale& scale_of(base::Units units) {
  switch (units) {
    case base::Units::feet_inches:
      return kInches;
    case base::Units::millimeters:
      return kMillimeters;
    case base::Units::meters:
      break;
  }
  return kMeters;
}

constexpr int kBlackOnWhite = 7;  // drawn black on white and white on black
constexpr int kOfLayer = -1;
constexpr int kColorOfLayer = 256;
constexpr int kPlainWidth = 25;  // hundredths of a millimeter
constexpr int kHeavyWidth = 50;
constexpr int kCrossInCircle = 34;  // how points are shown

/// A file in memory: the library writes to a name only.
class MemoryFile {
 public:
  MemoryFile() : number_(::memfd_create("drawing", MFD_CLOEXEC)) {
    if (number_ < 0) fail();
  }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  ~MemoryFile() { ::close(number_); }

  [[nodiscard]] std::string name() const { return fmt::format("/proc/self/fd/{}", number_); }

  [[nodiscard]] std::string bytes() const {
    const off_t size = ::lseek(number_, 0, SEEK_END);
    if (size < 0) fail();
    std::string result(static_cast<std::size_t>(size), '\0');
    std::size_t had = 0;
    while (had < result.size()) {
      const ssize_t got =
          ::pread(number_, result.data() + had, result.size() - had, static_cast<off_t>(had));
      if (got <= 0) fail();
      had += static_cast<std::size_t>(got);
    }
    return result;
  }

 private:
  [[noreturn]] static void fail() {
    throw std::system_error(errno, std::generic_category(), "a drawing in memory");
  }
  int number_;
};

}  // namespace

/// One drawing on its way into one file.
class DxfWriter {
 public:
  DxfWriter(const DxfDrawing& drawing, const std::string& path)
      : drawing_(drawing), scale_(scale_of(drawing.units_)) {
    out_.reset(dxf_.out(path.c_str(), DL_VERSION_2000));
    if (out_ == nullptr) throw std::system_error(errno, std::generic_category(), path);
  }

  void write() {
    write_header();
    write_tables();
    write_blocks();
    out_->sectionEntities();
    for (const auto& shape : drawing_.shapes_) write_shape(shape);
    for (const auto& text : drawing_.texts_) write_text(text);
    out_->sectionEnd();
    dxf_.writeObjects(*out_);
    dxf_.writeObjectsEnd(*out_);
    out_->dxfEOF();
    out_->close();
  }

 private:
  [[nodiscard]] double figure(double meters) const {
    return std::round(meters * scale_.per_meter * scale_.steps_per_unit) / scale_.steps_per_unit +
           0.0;  // never -0
  }
  [[nodiscard]] double x(base::Point at) const { return figure(at.x_m); }
  [[nodiscard]] double y(base::Point at) const { return figure(at.y_m); }

  void variable(const char* name, int code, int value) const {
    out_->dxfString(9, name);
    out_->dxfInt(code, value);
  }
  void variable(const char* name, double value) const {
    out_->dxfString(9, name);
    out_->dxfReal(40, value);
  }
  void variable(const char* name, base::Point at) const {
    out_->dxfString(9, name);
    out_->coord(10, x(at), y(at));
  }

  void write_header() {
    base::Point least{INFINITY, INFINITY};
    base::Point most{-INFINITY, -INFINITY};
    for (const auto& shape : drawing_.shapes_)
      for (const base::Point& corner : shape.corners) {
        least = {std::min(least.x_m, corner.x_m), std::min(least.y_m, corner.y_m)};
        most = {std::max(most.x_m, corner.x_m), std::max(most.y_m, corner.y_m)};
      }
    dxf_.writeHeader(*out_);
    variable("$INSUNITS", 70, scale_.unit_code);
    variable("$LUNITS", 70, scale_.shown_as);
    variable("$MEASUREMENT", 70, scale_.metric);
    variable("$EXTMIN", least);
    variable("$EXTMAX", most);
    variable("$PDMODE", 70, kCrossInCircle);
    variable("$PDSIZE", figure(drawing_.text_height_m_));
    variable("$LTSCALE", 1.0);
    out_->sectionEnd();
  }

  void write_line_types() {
    const double dash = figure(drawing_.text_height_m_);
    std::array<double, 2> dashes{dash, -0.5 * dash};
    out_->tableLinetypes(4);
    dxf_.writeLinetype(*out_, DL_LinetypeData("BYBLOCK", "", 0, 0, 0.0));
    dxf_.writeLinetype(*out_, DL_LinetypeData("BYLAYER", "", 0, 0, 0.0));
    dxf_.writeLinetype(*out_, DL_LinetypeData("CONTINUOUS", "", 0, 0, 0.0));
    dxf_.writeLinetype(*out_, DL_LinetypeData("DASHED", "dashes", 0, 2, 1.5 * dash, dashes.data()));
    out_->tableEnd();
  }

  void write_layers() {
    out_->tableLayers(static_cast<int>(drawing_.layers_.size()) + 1);
    dxf_.writeLayer(*out_, DL_LayerData("0", 0),
                    DL_Attributes("", kBlackOnWhite, -1, kPlainWidth, "CONTINUOUS"));
    for (const auto& layer : drawing_.layers_) {
      const bool heavy = layer.stroke == DxfStroke::heavy;
      const bool dashed = layer.stroke == DxfStroke::dashed;
      dxf_.writeLayer(*out_, DL_LayerData(layer.name, 0),
                      DL_Attributes("", kBlackOnWhite, -1, heavy ? kHeavyWidth : kPlainWidth,
                                    dashed ? "DASHED" : "CONTINUOUS"));
    }
    out_->tableEnd();
  }

  void write_tables() {
    out_->sectionTables();
    dxf_.writeVPort(*out_);
    write_line_types();
    write_layers();
    out_->tableStyle(1);
    dxf_.writeStyle(*out_, DL_StyleData("Standard", 0, 0.0, 1.0, 0.0, 0,
                                        figure(drawing_.text_height_m_), "txt", ""));
    out_->tableEnd();
    dxf_.writeView(*out_);
    dxf_.writeUcs(*out_);
    out_->tableAppid(1);
    dxf_.writeAppid(*out_, "ACAD");  // the format asks for this name
    out_->tableEnd();
    const double size = figure(drawing_.text_height_m_);
    dxf_.writeDimStyle(*out_, size, size, size, size, size);
    dxf_.writeBlockRecord(*out_);
    out_->tableEnd();
    out_->sectionEnd();
  }

  void write_blocks() {
    out_->sectionBlocks();
    for (const char* name : {"*Model_Space", "*Paper_Space", "*Paper_Space0"}) {
      dxf_.writeBlock(*out_, DL_BlockData(name, 0, 0.0, 0.0, 0.0));
      dxf_.writeEndBlock(*out_, name);
    }
    out_->sectionEnd();
  }

  [[nodiscard]] DL_Attributes on(std::size_t layer) const {
    return {drawing_.layers_[layer].name, kColorOfLayer, -1, kOfLayer, "BYLAYER"};
  }

  void write_shape(const DxfDrawing::Shape& shape) {
    const auto& corners = shape.corners;
    const DL_Attributes attributes = on(shape.layer);
    if (corners.size() == 1) {
      dxf_.writePoint(*out_, {x(corners[0]), y(corners[0]), 0.0}, attributes);
      return;
    }
    if (corners.size() == 2) {
      dxf_.writeLine(*out_, {x(corners[0]), y(corners[0]), 0.0, x(corners[1]), y(corners[1]), 0.0},
                     attributes);
      return;
    }
    constexpr int kClosed = 1;
    dxf_.writePolyline(*out_, {static_cast<int>(corners.size()), 0, 0, kClosed}, attributes);
    for (const base::Point& corner : corners) dxf_.writeVertex(*out_, {x(corner), y(corner)});
    dxf_.writePolylineEnd(*out_);
  }

  void write_text(const DxfDrawing::Text& text) {
    const double height = drawing_.text_height_m_;
    const double beside = text.amid ? 0.0 : 0.75 * height;
    const base::Point at = text.at + base::Point{beside, beside};
    const int across = text.amid ? 1 : 0;  // the codes of the format: center, middle
    const int upward = text.amid ? 2 : 0;
    dxf_.writeText(*out_,
                   DL_TextData(x(at), y(at), 0.0, x(at), y(at), 0.0, figure(height), 1.0, 0, across,
                               upward, text.text, "Standard", 0.0),
                   on(text.layer));
  }

  const DxfDrawing& drawing_;
  const Scale& scale_;
  DL_Dxf dxf_;
  std::unique_ptr<DL_WriterA> out_;
};

DxfDrawing::DxfDrawing(base::Units units, double text_height_m)
    : units_(units), text_height_m_(text_height_m) {}

std::size_t DxfDrawing::layer(std::string_view name, DxfStroke stroke) {
  layers_.push_back({names_.name(name), stroke});
  return layers_.size() - 1;
}

void DxfDrawing::point(std::size_t layer, base::Point at) { shapes_.push_back({layer, {at}}); }

void DxfDrawing::text(std::size_t layer, base::Point beside, std::string_view text) {
  texts_.push_back({layer, beside, false, dxf_text(text)});
}

void DxfDrawing::text_amid(std::size_t layer, base::Point middle, std::string_view text) {
  texts_.push_back({layer, middle, true, dxf_text(text)});
}

void DxfDrawing::line(std::size_t layer, base::Point from, base::Point to) {
  shapes_.push_back({layer, {from, to}});
}

void DxfDrawing::closed(std::size_t layer, const std::vector<base::Point>& corners) {
  shapes_.push_back({layer, corners});
}

std::string DxfDrawing::file() const {
  const MemoryFile memory;
  DxfWriter(*this, memory.name()).write();
  return memory.bytes();
}

}  // namespace stakewright::output
