#include "shop/exchange/pieces_csv.hpp"

#include <map>

#include "tests/shop/classroom.hpp"

namespace brakewright::shop {
namespace {

class PiecesTable : public Classroom {
 protected:
  PiecesReport bring(const std::string& csv, bool dry_run = false, Unit unit = Unit::mm) {
    return import_pieces(shop, csv, {.default_unit = unit, .dry_run = dry_run}, teacher);
  }

  Piece named(const std::string& name) {
    for (const Piece& piece : shop.pieces()) {
      if (piece.name == name) return piece;
    }
    ADD_FAILURE() << "no piece " << name;
    return {};
  }

  /// "3 bore: message" of each refused line.
  static std::vector<std::string> refusals(const PiecesReport& report) {
    std::vector<std::string> told;
    for (const PieceLine& line : report.lines) {
      if (line.outcome == PieceOutcome::refused) told.push_back(std::to_string(line.line) + " " + line.field);
    }
    return told;
  }

  std::string refused_heading(const std::string& csv) {
    try {
      bring(csv);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return "taken";
  }
};

TEST_F(PiecesTable, ComesInFromSemicolonsDecimalCommasQuotesAndAByteOrderMark) {
  const auto report = bring(
      "\xef\xbb\xbfName;Kind;Hook;Unit;Bore;Length;Small;Large;Runout;Note\r\n"
      "cone A;Cone;B 3;mm;25,4;30;50,5;75;12,5;\"one \"\"good\"\" cone; hot\"\r\n"
      "nut;nut;;in;1;3/4;;;;\r\n");
  EXPECT_TRUE(report.stored);
  EXPECT_EQ(report.added, 2);
  const Piece cone = named("cone A");
  EXPECT_EQ(cone.kind, PieceKind::cone);
  EXPECT_EQ(cone.hook, "B 3");
  EXPECT_EQ(cone.bore, Length{25'400'000});
  EXPECT_EQ(cone.small, Length{50'500'000});
  EXPECT_EQ(cone.runout_um, 12.5);
  EXPECT_EQ(cone.note, "one \"good\" cone; hot");
  const Piece nut = named("nut");
  EXPECT_EQ(nut.unit, Unit::in);
  EXPECT_EQ(nut.bore, Length{25'400'000});
  EXPECT_EQ(nut.length, Length{19'050'000});
  EXPECT_FALSE(nut.small);
  EXPECT_FALSE(nut.runout_um);
}

TEST_F(PiecesTable, TakesTheUnitBehindTheNumberFirstThenTheLinesThenTheHeadingsThenTheGiven) {
  bring(
      "name\tkind\tbore (mm)\tlength\tunit\trunout_mm\n"
      "a\tspacer\t25.4\t10 mm\tin\t0.01\n"
      "b\tspacer\t25.4\t10\t\t\n",
      false, Unit::in);
  EXPECT_EQ(named("a").bore, Length{645'160'000});  // 25.4 in, since the line says inches
  EXPECT_EQ(named("a").length, Length{10'000'000});
  EXPECT_EQ(named("a").runout_um, 10.0);
  EXPECT_EQ(named("b").bore, Length{25'400'000});
  EXPECT_EQ(named("b").length, Length{254'000'000});
  EXPECT_EQ(named("b").unit, Unit::in);
}

TEST_F(PiecesTable, ChangesAPieceOfTheSameNameAndSaysWhat) {
  bring("name,kind,hook,bore,length,damping\nring,spacer,A1,25.4,10,yes\n");
  const Uuid before = named("ring").id;
  const auto report = bring("name,hook,length\nring,C9,12\n");
  ASSERT_EQ(report.lines.size(), 1U);
  EXPECT_EQ(report.changed, 1);
  EXPECT_EQ(report.lines[0].outcome, PieceOutcome::changed);
  EXPECT_EQ(report.lines[0].message, "a piece of this name is here; changed: hook, length");
  const Piece ring = named("ring");
  EXPECT_EQ(shop.pieces().size(), 1U);
  EXPECT_EQ(ring.id, before);
  EXPECT_EQ(ring.hook, "C9");
  EXPECT_EQ(ring.length, Length{12'000'000});
  EXPECT_EQ(ring.bore, Length{25'400'000});
  EXPECT_TRUE(ring.damping);  // its heading was not there
}

TEST_F(PiecesTable, IsTakenWholeOrNotAtAll) {
  const auto report = bring(
      "name,kind,bore,length,small,large,weighted\n"
      "good,spacer,25.4,10,,,\n"
      "no bore,spacer,,10,,,\n"
      "upside down,cone,25.4,30,75,50,\n"
      "half a cone,cone,25.4,30,50,,\n"
      "what,wedge,25.4,30,,,\n"
      "heavy nut,nut,25.4,30,,,yes\n"
      "good,spacer,25.4,11,,,\n"
      ",spacer,25.4,11,,,\n"
      "perhaps,spacer,25.4,11,,,perhaps\n"
      "grouped,spacer,25.4,\"1,234.5\",,,\n"
      "too many,spacer,25,4,10,,,\n");
  EXPECT_FALSE(report.stored);
  EXPECT_EQ(report.added, 1);
  EXPECT_EQ(report.refused, 10);
  EXPECT_EQ(refusals(report), (std::vector<std::string>{"3 bore", "4 small", "5 large", "6 kind", "7 weighted",
                                                        "8 name", "9 name", "10 weighted", "11 length", "12 "}));
  EXPECT_TRUE(shop.pieces().empty());
}

TEST_F(PiecesTable, StoresNothingOnTrialAndTellsTheSame) {
  const std::string csv = "name,kind,bore,length\na,spacer,25.4,10\nb,nut,25.4,10\n";
  const auto trial = bring(csv, true);
  EXPECT_FALSE(trial.stored);
  EXPECT_EQ(trial.added, 2);
  EXPECT_TRUE(shop.pieces().empty());
  EXPECT_EQ(bring(csv).added, 2);
  EXPECT_EQ(bring(csv).known, 2);
  EXPECT_EQ(shop.pieces().size(), 2U);
}

TEST_F(PiecesTable, WithoutANameColumnOrWithOneTwiceIsRefusedAsAWhole) {
  EXPECT_EQ(refused_heading(""), "no_heading ");
  EXPECT_EQ(refused_heading("kind,bore\ncone,25.4\n"), "no_heading name");
  EXPECT_EQ(refused_heading("name,bore,Bore (in)\na,1,1\n"), "no_heading Bore (in)");
  EXPECT_EQ(refused_heading("name,kind\n\"a,b\n"), "not_a_table ");
}

TEST_F(PiecesTable, TellsTwoPiecesOfOneNameApartByTheirIds) {
  const Piece one = shop.put_piece(
      {.id = id(), .name = "shim", .kind = PieceKind::spacer, .bore = {25'400'000}, .length = {1'000'000}}, teacher);
  const Piece two = shop.put_piece(
      {.id = id(), .name = "shim", .kind = PieceKind::spacer, .bore = {25'400'000}, .length = {2'000'000}}, teacher);
  EXPECT_EQ(refusals(bring("name,length\nshim,3\n")), std::vector<std::string>{"2 name"});
  EXPECT_EQ(bring("name,length,id\nshim,3," + to_text(two.id) + "\nshim,1," + to_text(one.id) + "\n").changed, 1);
  std::map<Uuid, Length> lengths;
  for (const Piece& piece : shop.pieces()) lengths[piece.id] = piece.length;
  EXPECT_EQ(lengths[one.id], Length{1'000'000});
  EXPECT_EQ(lengths[two.id], Length{3'000'000});
}

TEST_F(PiecesTable, ThatWasWrittenIsReadBackWithoutAChange) {
  std::vector<Piece> pieces;
  Random draws(7);
  const auto length = [&] { return Length{1 + static_cast<std::int64_t>(draws.below(300'000'000))}; };
  for (int k = 0; k < 2000; ++k) {
    Piece piece{.id = id(), .name = "piece " + std::to_string(k % 1990), .bore = length(), .length = length()};
    piece.unit = draws.uniform() < 0.5 ? Unit::in : Unit::mm;
    if (draws.uniform() < 0.3) piece.bore = Length{254 * (1 + static_cast<std::int64_t>(draws.below(100'000)))};
    if (draws.uniform() < 0.5) piece.outside = length();
    if (draws.uniform() < 0.5) piece.runout_um = 100 * draws.uniform();
    piece.damping = draws.uniform() < 0.1;
    piece.active = draws.uniform() < 0.9;
    piece.hook = draws.uniform() < 0.5 ? "=A" + std::to_string(k) : "";
    piece.note = draws.uniform() < 0.1 ? " a note;\nof \"two\" lines, \u00e9 " : "";
    pieces.push_back(piece);
  }
  EXPECT_EQ(shop.put_pieces(pieces, teacher), 2000);
  const auto before = shop.pieces();
  const auto seq = shop.last_seq();
  const auto report = bring(pieces_csv(before), false, Unit::in);
  EXPECT_TRUE(report.stored);
  EXPECT_EQ(report.known, 2000);
  EXPECT_EQ(shop.pieces(), before);
  EXPECT_EQ(shop.last_seq(), seq);
}

TEST_F(PiecesTable, WrittenInOneShopHangsTheSamePiecesInAnother) {
  bring(
      "name,kind,hook,unit,bore,length,small,large,damping,note\ncone,cone,A1,in,1,1.18,2,3,no,warm\nd,spacer,,mm,28,9,"
      ",,x,\n");
  const auto there = store::open_in_memory();
  Shop other(*there, {.now = [this] { return clock; },
                      .random =
                          [this](auto bytes) {
                            for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice.below(256));
                          }});
  const Uuid by = other.put_person({.id = teacher, .name = "Ines Marrow"}, teacher).id;
  EXPECT_EQ(import_pieces(other, pieces_csv(shop.pieces()), {}, by).added, 2);
  EXPECT_EQ(other.pieces(), shop.pieces());
}

}  // namespace
}  // namespace brakewright::shop
