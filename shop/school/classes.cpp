#include <algorithm>

#include "shop/find.hpp"
#include "shop/json.hpp"
#include "shop/school/changing.hpp"

/// Classes, who is in them, and the list that a class comes with.
namespace brakewright::shop {
namespace {

void check_class(const SchoolClass& wanted) {
  check(wanted);
  if (wanted.starts_on && wanted.ends_on && *wanted.ends_on < *wanted.starts_on) {
    throw InputError("out_of_range", "ends_on", "must not be before starts_on");
  }
}

std::vector<Uuid> present_members(const std::vector<Membership>& memberships) {
  std::vector<Uuid> people;
  for (const Membership& one : memberships) {
    if (!one.until) people.push_back(one.person_id);
  }
  return people;
}

RosterReport counted(std::vector<RosterLine> lines) {
  RosterReport report;
  for (const RosterLine& line : lines) {
    std::int64_t* counters[] = {&report.added, &report.joins, &report.known, &report.refused};
    ++*counters[static_cast<std::size_t>(line.outcome)];
  }
  report.lines = std::move(lines);
  return report;
}

}  // namespace

std::vector<ClassFile> School::classes() {
  return looking([&] {
    std::vector<ClassFile> files;
    for (SchoolClass& one : store_.classes().all()) {
      auto members = store_.memberships().where("class_id", one.id);
      files.push_back({std::move(one), std::move(members)});
    }
    return files;
  });
}

ClassFile School::school_class(const Uuid& class_id) {
  return looking([&] {
    const auto found = store_.classes().find(class_id);
    if (!found) throw RuleError("unknown_class", "class_id", "no class of this school has this id");
    return ClassFile{*found, store_.memberships().where("class_id", class_id)};
  });
}

SchoolClass School::put_class(SchoolClass wanted, const Uuid& by) {
  check_class(wanted);
  return journaled(by, [&](const Recorder& recorder) {
    const auto present = store_.classes().find(wanted.id);
    if (present == wanted) return wanted;
    const bool archiving = wanted.archived && present && !present->archived;
    recorder.put(store_.classes(), wanted, !present ? "added" : archiving ? "archived" : "changed");
    return wanted;
  });
}

Membership School::join_class(Membership wanted, const Uuid& by) {
  check(wanted);
  return journaled(by, [&](const Recorder& recorder) {
    expect_person(wanted.person_id, "person_id");
    const auto found = store_.classes().find(wanted.class_id);
    if (!found) throw RuleError("unknown_class", "class_id", "no class of this school has this id");
    for (const Membership& other : store_.memberships().where("class_id", wanted.class_id)) {
      if (other.person_id == wanted.person_id && !other.until) return other;
    }
    if (found->archived) throw RuleError("archived", "class_id", "this class is archived; nobody joins it any more");
    if (store_.memberships().find(wanted.id)) throw RuleError("id_taken", "id", "another membership has this id");
    wanted.since = now_();
    wanted.until.reset();
    recorder.put(store_.memberships(), wanted, "began");
    return wanted;
  });
}

Membership School::leave_class(const Uuid& class_id, const Uuid& person_id, const Uuid& by) {
  return journaled(by, [&](const Recorder& recorder) {
    for (Membership one : store_.memberships().where("class_id", class_id)) {
      if (one.person_id != person_id || one.until) continue;
      one.until = now_();
      recorder.put(store_.memberships(), one, "ended");
      return one;
    }
    throw RuleError("unknown_membership", "person_id", "this person is not in the class");
  });
}

RosterReport School::import_roster(const Uuid& class_id, std::string_view csv, bool dry_run, const Uuid& by) {
  RosterReport report;
  const auto read = [&] {
    const ClassFile file = school_class(class_id);
    report =
        counted(read_roster(csv, shop_.people(), present_members(file.memberships), [&] { return shop_.new_id(); }));
    return !dry_run && report.refused == 0;
  };
  if (dry_run) {
    read();
    return report;
  }
  shop_.batch([&] {
    if (!read()) return;
    for (const RosterLine& line : report.lines) {
      if (line.outcome == RosterOutcome::known) continue;
      if (line.outcome == RosterOutcome::added) {
        shop_.put_person({.id = *line.person_id, .name = line.name, .role = Role::student}, by);
      }
      join_class({.id = shop_.new_id(), .class_id = class_id, .person_id = *line.person_id}, by);
    }
    report.stored = true;
  });
  return report;
}

}  // namespace brakewright::shop
