#include <fmt/format.h>

#include "reading_parts.hpp"

namespace stakewright::forms {
namespace {

using drawing::Box;

void add_opening(RunningSheets& sheets, const FormInput& input) {
  const Wording& wording = input.wording;
  sheets.add_caution(wording.text("reading.caution"));
  sheets.use(
      sheets.pen().paragraph(sheets.corner(), sheets.room().width_pt, wording.text("reading.how")));
  const double w = sheets.room().width_pt;
  add_fields(sheets,
             {{"date", wording.text("reading.date"), 0.0, 0.22 * w},
              {"round", wording.text("reading.round"), 0.24 * w, 0.37 * w},
              {"crew", wording.text("reading.crew"), 0.39 * w, 0.68 * w},
              {"weather", wording.text("reading.weather"), 0.70 * w, w}},
             wording);
  std::vector<Field> tapes;
  for (const int number : {1, 2}) {
    const double left = number == 1 ? 0.0 : 0.34 * w;
    tapes.push_back({fmt::format("tape.{}", number),
                     wording.filled("reading.tape", {{"number", std::to_string(number)}}), left,
                     left + 0.32 * w, true});
  }
  tapes.push_back({"air", wording.text("reading.air"), 0.68 * w, w});
  add_fields(sheets, tapes, wording);
  sheets.use(8.0);
}

void add_field(RunningSheets& sheets, const Field& field, const Wording& wording) {
  Pen pen = sheets.pen();
  const Box& room = sheets.room();
  const double y = room.y_pt + kField_pt - 4.0;
  const double left = room.x_pt + field.from_pt;
  double right = room.x_pt + field.to_pt;
  pen.text({left, y}, field.label);
  if (field.checked) {
    const Box box{right - 15.0, room.y_pt + 9.0, 15.0, 15.0};
    pen.tick(field.name + ".checked", box);
    pen.text({box.x_pt - 4.0, y}, wording.text("reading.checked"), kToTheRight);
    right = box.x_pt - 9.0 - width_pt(wording.text("reading.checked"));
  }
  const double from = left + width_pt(field.label) + 5.0;
  pen.line({from, y + 2.0}, {right, y + 2.0}, kRule_pt);
  pen.blank(field.name, {from, room.y_pt + 2.0, right - from, kField_pt - 4.0});
}

}  // namespace

void add_length_blank(Pen& pen, const std::string& name, const Box& cell, base::Units units,
                      const Wording& wording) {
  pen.blank(name, cell);
  const double y = cell.bottom_pt() - 6.0;
  const auto unit = [&](double right, const char* key) {
    pen.text({right, y}, wording.text(key), kToTheRight);
  };
  const double end = cell.right_pt() - 4.0;
  switch (units) {
    case base::Units::feet_inches:
      unit(cell.x_pt + 0.40 * cell.width_pt, "units.foot");
      unit(end, "units.inch");
      break;
    case base::Units::millimeters:
      unit(end, "units.millimeter");
      break;
    case base::Units::meters:
      unit(end, "units.meter");
      break;
  }
}

void add_fields(RunningSheets& sheets, const std::vector<Field>& fields, const Wording& wording) {
  for (const Field& field : fields) add_field(sheets, field, wording);
  sheets.use(kField_pt);
}

std::string RowNames::name_of(const std::string& hold, const std::string& to) {
  std::string name = fmt::format("{}-{}", hold, to);
  const int times = ++times_[name];
  if (times > 1) name += fmt::format("/{}", times);
  return name;
}

std::vector<Sheet> reading_sheets(const FormInput& input) {
  RunningSheets sheets(SheetKind::read, input.choices.paper);
  add_opening(sheets, input);
  add_tape_rows(sheets, input);
  add_laser_rows(sheets, input);
  add_level_rows(sheets, input);
  add_pencil_check(sheets, input);
  return sheets.taken();
}

}  // namespace stakewright::forms
