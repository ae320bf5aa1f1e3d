#include "store/sqlite_school.hpp"

#include <nlohmann/json.hpp>

#include "shop/school/fields.hpp"
#include "store/rooms.hpp"
#include "store/sqlite_shelf.hpp"

namespace brakewright::store {

using namespace shop;

/// Entity, its shelf, its table, and whether rows may change.
#define BRAKEWRIGHT_SCHOOL_TABLES(make)                                                                               \
  make(ReferencePart, reference_parts, reference_part, change) make(Study, studies, study, change) make(              \
      StudyReading, study_readings, study_reading, change) make(SafetyPoint, safety_points, safety_point, change)     \
      make(SafetyAnswer, safety_answers, safety_answer, final) make(KeptPermitRule, permit_rules, permit_rule, final) \
          make(SupervisedCut, supervised_cuts, supervised_cut, final) make(Permit, permits, permit, change)           \
              make(SchoolClass, classes, school_class, change) make(Membership, memberships, membership, change)      \
                  make(Competence, competences, competence, change) make(Evidence, evidence, evidence, change)        \
                      make(QueueEntry, queue_entries, queue_entry, change)

namespace {

class SqliteSchool final : public SchoolStore {
 public:
  explicit SqliteSchool(Database& database) : database_(database) {}

#define BRAKEWRIGHT_SHELF(Entity, shelf, table, rows) \
  Shelf<Entity>& shelf() override { return shelf##_shelf_; }
  BRAKEWRIGHT_SCHOOL_TABLES(BRAKEWRIGHT_SHELF)
#undef BRAKEWRIGHT_SHELF

 private:
  Database& database_;
#define BRAKEWRIGHT_SHELF(Entity, shelf, table, rows) SqliteShelf<Entity> shelf##_shelf_{database_, #table, Rows::rows};
  BRAKEWRIGHT_SCHOOL_TABLES(BRAKEWRIGHT_SHELF)
#undef BRAKEWRIGHT_SHELF
};

}  // namespace

std::unique_ptr<SchoolStore> open_school(Store& store) { return std::make_unique<SqliteSchool>(database_of(store)); }

std::vector<std::unique_ptr<AnyShelf>> shelves_of_school(Database& database) {
  std::vector<std::unique_ptr<AnyShelf>> shelves;
#define BRAKEWRIGHT_SHELF(Entity, shelf, table, rows) \
  shelves.push_back(std::make_unique<SqliteShelf<Entity>>(database, #table, Rows::rows));
  BRAKEWRIGHT_SCHOOL_TABLES(BRAKEWRIGHT_SHELF)
#undef BRAKEWRIGHT_SHELF
  return shelves;
}

#undef BRAKEWRIGHT_SCHOOL_TABLES

}  // namespace brakewright::store
