#include "shop/demo/iron.hpp"

#include <array>
#include <map>

namespace brakewright::shop::demo {
namespace {

constexpr Length mm(double value) { return {static_cast<std::int64_t>(value * 1000 + 0.5) * 1000}; }

/// A set of pieces for one arbor, as it would stand in one drawer.
struct Board {
  const char* arbor;  ///< in front of each name
  Length bore;
  Unit unit;
  char row;  ///< first letter of its hooks
};

constexpr std::array kBoards{Board{"1 in", {25'400'000}, Unit::in, 'A'}, Board{"28 mm", {28'000'000}, Unit::mm, 'D'}};

struct ConeText {
  double small_mm, large_mm, length_mm, runout_um;
};
constexpr std::array kCones{ConeText{38, 56, 26, 6}, ConeText{44, 62, 26, 9},  ConeText{50, 72, 28, 5},
                            ConeText{58, 80, 28, 8}, ConeText{66, 88, 30, 12}, ConeText{74, 94, 30, 10}};
constexpr std::array kTapers{ConeText{24, 40, 36, 7}, ConeText{28, 48, 40, 5}, ConeText{34, 54, 40, 8},
                             ConeText{42, 64, 42, 6}, ConeText{52, 76, 44, 11}};

struct ClampText {
  double ring_inner_mm, ring_outer_mm, cup_bore_mm, cup_depth_mm, length_mm, runout_um;
};
/// In pairs of one ring: the deep one takes spring and cone, the flat one goes outside.
constexpr std::array kClamps{ClampText{66, 98, 60, 40, 48, 6},     ClampText{66, 98, 0, 0, 28, 5},
                             ClampText{86, 128, 80, 42, 50, 7},    ClampText{86, 128, 0, 0, 30, 4},
                             ClampText{98, 152, 92, 42, 50, 9},    ClampText{98, 152, 0, 0, 30, 8},
                             ClampText{112, 156, 104, 44, 52, 10}, ClampText{112, 156, 0, 0, 32, 12}};

struct SpringText {
  double solid_mm, free_mm;
};
constexpr std::array kSprings{SpringText{12, 44}, SpringText{14, 52}, SpringText{10, 30}};

struct SpacerText {
  const char* word;
  double length_mm;
  bool weighted, damping;
};
constexpr std::array kSpacers{
    SpacerText{"damping spacer", 32, false, true}, SpacerText{"weighted damping spacer", 32, true, true},
    SpacerText{"damping spacer", 25, false, true}, SpacerText{"spacer", 6, false, false},
    SpacerText{"spacer", 12, false, false},        SpacerText{"spacer", 20, false, false},
    SpacerText{"weighted spacer", 40, true, false}};

class Pegboard {
 public:
  Pegboard(Shop& shop, Clock& clock, const Uuid& by) : shop_(shop), clock_(clock), by_(by) {}

  void hang(const Board& board) {
    board_ = &board;
    hook_ = 0;
    for (const ConeText& text : kCones) {
      Piece piece =
          made(PieceKind::cone, "cone " + whole(text.small_mm) + " to " + whole(text.large_mm), text.length_mm);
      set_ends(piece, text);
    }
    for (const ConeText& text : kTapers) {
      for (int twin = 0; twin < (text.small_mm == 28 || text.small_mm == 34 ? 2 : 1); ++twin) {
        Piece piece =
            made(PieceKind::taper, "taper " + whole(text.small_mm) + " to " + whole(text.large_mm), text.length_mm);
        set_ends(piece, text);
      }
    }
    for (const ClampText& text : kClamps) hang_clamp(text);
    for (const SpringText& text : kSprings) {
      Piece piece = made(PieceKind::spring, "spring " + whole(text.free_mm), text.solid_mm);
      piece.solid = mm(text.solid_mm);
      piece.free = mm(text.free_mm);
      put(piece);
    }
    for (const SpacerText& text : kSpacers) {
      Piece piece = made(PieceKind::spacer, std::string(text.word) + " " + whole(text.length_mm), text.length_mm);
      piece.weighted = text.weighted;
      piece.damping = text.damping;
      piece.runout_um = 3;
      put(piece);
    }
    for (int nut = 0; nut < 2; ++nut) put(made(PieceKind::nut, "nut", 24));
  }

 private:
  static std::string whole(double value_mm) { return std::to_string(static_cast<int>(value_mm)); }

  Piece made(PieceKind kind, const std::string& words, double length_mm) {
    Piece piece;
    piece.id = shop_.new_id();
    piece.kind = kind;
    piece.hook = std::string(1, static_cast<char>(board_->row + hook_ / 12)) + std::to_string(hook_ % 12 + 1);
    ++hook_;
    piece.name = std::string(board_->arbor) + ", " + words;
    if (const int twin = ++hung_[piece.name]; twin > 1) piece.name += ", no. " + std::to_string(twin);
    piece.unit = board_->unit;
    piece.bore = board_->bore;
    piece.length = mm(length_mm);
    return piece;
  }

  void set_ends(Piece& piece, const ConeText& text) {
    piece.small = mm(text.small_mm);
    piece.large = mm(text.large_mm);
    piece.runout_um = text.runout_um;
    put(piece);
  }

  void hang_clamp(const ClampText& text) {
    const std::string word = text.cup_depth_mm > 0 ? "deep clamp " : "flat clamp ";
    Piece piece = made(PieceKind::clamp, word + whole(text.ring_outer_mm), text.length_mm);
    piece.ring_inner = mm(text.ring_inner_mm);
    piece.ring_outer = mm(text.ring_outer_mm);
    if (text.cup_depth_mm > 0) {
      piece.cup_depth = mm(text.cup_depth_mm);
      piece.cup_bore = mm(text.cup_bore_mm);
    }
    piece.runout_um = text.runout_um;
    put(piece);
  }

  void put(const Piece& piece) {
    clock_.pass(8);
    shop_.put_piece(piece, by_);
  }

  Shop& shop_;
  Clock& clock_;
  Uuid by_;
  const Board* board_ = nullptr;
  int hook_ = 0;
  std::map<std::string, int> hung_ = {};  ///< how many of one name: pieces are told apart by it in a table
};

void enter_edges(Shop& shop, Clock& clock, const Uuid& by) {
  struct InsertText {
    const char* name;
    Length nose_radius;
    double max_speed_m_per_min;
  };
  static constexpr std::array kInserts{InsertText{"tip 1, radius 0.4", {400'000}, 150},
                                       InsertText{"tip 2, radius 0.4", {400'000}, 150},
                                       InsertText{"tip 3, radius 0.8", {800'000}, 130}};
  for (const InsertText& text : kInserts) {
    Insert insert{.id = shop.new_id(), .name = text.name};
    insert.nose_radius = text.nose_radius;
    insert.max_speed_m_per_min = text.max_speed_m_per_min;
    clock.pass(40);
    shop.put_insert(insert, by);
    for (std::int64_t number = 1; number <= insert.corners; ++number) {
      Corner corner{.id = shop.new_id(), .insert_id = insert.id, .number = number};
      if (&text == &kInserts.back() && number == 2) {
        corner.condition = EdgeCondition::chipped;
        corner.note = "dropped";
      }
      shop.put_corner(corner, by);
    }
  }
}

void enter_bands(Shop& shop, Clock& clock, const Uuid& by) {
  struct BandText {
    const char* name;
    const char* hook;
    double least_mm, most_mm;
  };
  static constexpr std::array kBands{BandText{"rubber band, narrow", "G1", 200, 260},
                                     BandText{"rubber band, wide", "G2", 240, 320},
                                     BandText{"spring band with lead", "G3", 230, 310}};
  for (const BandText& text : kBands) {
    clock.pass(20);
    shop.put_band({.id = shop.new_id(),
                   .name = text.name,
                   .hook = text.hook,
                   .least_diameter = mm(text.least_mm),
                   .most_diameter = mm(text.most_mm)},
                  by);
  }
}

}  // namespace

void enter_iron(Shop& shop, Clock& clock, const School& school) {
  const Uuid by = school.teachers.front().id;
  Pegboard pegboard(shop, clock, by);
  for (const Board& board : kBoards) pegboard.hang(board);
  enter_edges(shop, clock, by);
  enter_bands(shop, clock, by);
  for (const Piece& piece : shop.pieces()) {
    if (piece.name == "28 mm, spacer 6") {
      shop.book({.id = shop.new_id(), .piece_id = piece.id, .kind = BookingKind::missing, .note = "not on its hook"},
                by);
    }
  }
}

}  // namespace brakewright::shop::demo
