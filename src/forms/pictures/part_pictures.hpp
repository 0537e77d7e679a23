// The parts of the roof, each on a page: how a carpenter marks and cuts it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "key_column.hpp"
#include "stakewright/forms/pictures.hpp"
#include "stakewright/told/roof_words.hpp"

namespace stakewright::forms {

using base::Fact;

/// What every drawing of a part is made from.
struct PartInput {
  const job::Job& job;
  const roof::Carry& carry;  ///< the part and its cuts are of this one
  const roof::Carry& found;  ///< which pieces come off the pattern, and the lengths of the others
  const Voice& voice;
  Paper paper;
};

/// A hip, common or jack from its side and from above, with its cuts.  `by_name`: it is drawn as
/// that one piece, else as the pattern of its kind.
Picture rafter_picture(const PartInput& input, const roof::Part& part, bool by_name);

/// The corner of two fascia boards.
Picture fascia_picture(const PartInput& input, const roof::Part& part, bool by_name);

// Names

/// "hip", "common", ...
Fact kind_name(roof::PartKind kind);
/// "Hip", or "Hip C" for the one piece.
Fact title_of(const roof::Part& part, bool by_name);
/// What a head says of the piece: that it is the pattern, is to be tried, or is its own cut.
Fact note_on(const roof::Part& part, bool by_name);

// The pieces of a roof gathered by name: hip, common, jack 1, jack 2, fascia, beam ...

struct PieceRow {
  roof::PartKind kind = roof::PartKind::hip;
  int number = 0;  ///< of a jack, from the common outward; 0 for others
  std::size_t count = 0;
  std::size_t own = 0;      ///< pieces that need their own cut
  double line_m = 0.0;      ///< as planned
  double overall_m = 0.0;   ///< of the first of them
  double farthest_m = 0.0;  ///< found less planned, of the one that is off most
};

/// Kinds in working order; blocking is left out, it is cut to fit on the spot.
std::vector<PieceRow> piece_rows(const roof::Carry& carry);

/// Which pieces of a kind come off the pattern, and the lengths of those that do not, down to the
/// end of the column; what finds no room is counted and sent to the report.
void add_pieces_like(KeyColumn& key, const PartInput& input, roof::PartKind kind);

// Cuts

/// Cuts of a piece by name: the one for both sides, or left then right.  Jacks of one hand of a
/// side have their cheek alike, and all other cuts from their side's common.
std::vector<const roof::Cut*> cuts_of(const roof::Carry& carry, const roof::PartName& part,
                                      roof::CutName name);

/// The angle that the piece is cut to: planned, or its own.
double angle_to_cut_rad(const roof::Cut& cut);

/// Numbers by which the list of cuts names the cuts on the drawing; empty: that cut is not there.
struct CutNumbers {
  std::string plumb;
  std::string seat;
  std::string cheek;
  std::string tail;
};

/// The cuts of a piece in words: how each is set on a framing square and on a saw.
struct CutList {
  struct Words {
    std::string heading;  ///< "Plumb cut"
    std::string words;    ///< a sentence or two
  };
  std::vector<Words> cuts;  ///< in the order of their numbers, from 1
  CutNumbers numbers;

  /// All of it in a row, each behind a space.
  [[nodiscard]] std::string text() const;
};

/// Cuts of a hip, common or jack.
CutList rafter_cuts(const PartInput& input, const roof::Part& part);

/// Cuts of a fascia board, one or two ways as its ends are alike or not.
CutList fascia_cuts(const PartInput& input, const roof::Part& part);

/// Writes the list into a column; returns where it ends.
double draw_cut_list(drawing::Page& page, const drawing::Box& box, const CutList& list);

// Dimension lines: two ticks, a line between them, a length in a gap of it

/// From one row of dimensions to the next.
inline constexpr double kDimensionRow_pt = 17.0;

/// Upright lines that the words of a dimension do not lie over.
struct Uprights {
  double between_pt = 0.0;  ///< one between the ticks: the words stand left of it; 0: none
  double beyond_pt = 0.0;   ///< the last one on the right: words outside go past it where they must
};

/// A level dimension at height `y_pt`, its words in a gap of the line where they fit between the
/// ticks, else to the right of them.
void draw_level_dimension(drawing::Page& page, double left_pt, double right_pt, double y_pt,
                          const std::string& words, const Uprights& uprights = {});

/// Thin upright line from a point that is measured to its dimension.
void draw_extension(drawing::Page& page, double x_pt, double from_pt, double to_pt);

}  // namespace stakewright::forms
