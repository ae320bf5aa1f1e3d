#include "store/sqlite_practice.hpp"

#include <nlohmann/json.hpp>

#include "shop/practice/fields.hpp"
#include "store/rooms.hpp"
#include "store/sqlite_shelf.hpp"

namespace brakewright::store {

namespace {

using SetShelf = SqliteShelf<shop::PracticeSet>;
using RunShelf = SqliteShelf<shop::PracticeRun>;
using RecordShelf = SqliteShelf<shop::PracticeRecord>;

class SqlitePractice final : public shop::PracticeStore {
 public:
  explicit SqlitePractice(Database& database)
      : database_(database),
        sets_(database, "practice_set", Rows::change),
        runs_(database, "practice_run", Rows::change),
        records_(database, "practice_record", Rows::final) {}

  shop::Shelf<shop::PracticeSet>& sets() override { return sets_; }
  shop::Shelf<shop::PracticeRun>& runs() override { return runs_; }
  shop::Shelf<shop::PracticeRecord>& records() override { return records_; }

  std::map<shop::Uuid, double> best_points() override {
    std::map<shop::Uuid, double> best;
    Query query = database_.query(
        "SELECT person_id, MAX(points) FROM (SELECT person_id, points, safe, ROW_NUMBER() OVER"
        " (PARTITION BY person_id, seed, difficulty, faults ORDER BY ended_at, place) AS nth"
        " FROM practice_run WHERE points IS NOT NULL) WHERE nth = 1 AND safe = 1 GROUP BY person_id");
    while (query.next()) best.emplace(shop::parse_uuid(query.text(0)), query.real(1));
    return best;
  }

 private:
  Database& database_;
  SetShelf sets_;
  RunShelf runs_;
  RecordShelf records_;
};

}  // namespace

std::unique_ptr<shop::PracticeStore> open_practice(shop::Store& store) {
  return std::make_unique<SqlitePractice>(database_of(store));
}

std::vector<std::unique_ptr<shop::AnyShelf>> shelves_of_practice(Database& database) {
  std::vector<std::unique_ptr<shop::AnyShelf>> shelves;
  shelves.push_back(std::make_unique<SetShelf>(database, "practice_set", Rows::change));
  shelves.push_back(std::make_unique<RunShelf>(database, "practice_run", Rows::change));
  shelves.push_back(std::make_unique<RecordShelf>(database, "practice_record", Rows::final));
  return shelves;
}

}  // namespace brakewright::store
