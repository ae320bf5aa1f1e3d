#pragma once

#include <functional>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "shop/json.hpp"
#include "shop/practice/practice.hpp"
#include "shop/store.hpp"
#include "store/sqlite_practice.hpp"
#include "tests/shop/classroom.hpp"

namespace brakewright::shop {

/// A book in memory whose medium fails when told to.
class BookOfTests final : public PracticeBook {
 public:
  bool fails = false;
  std::function<void()> on_read = [] {};

  std::vector<OpenRun> open_runs() override {
    std::vector<OpenRun> all;
    for (const auto& [id, run] : open_) all.push_back(run);
    return all;
  }
  std::vector<KeptAct> acts(const Uuid& run_id) override {
    on_read();
    const auto found = acts_.find(run_id);
    return found == acts_.end() ? std::vector<KeptAct>() : found->second;
  }
  void keep(const KeptAct& act, const OpenRun& after) override {
    if (fails) throw StoreError(StoreError::Cause::full, "the disk is full");
    acts_[after.run_id].push_back(act);
    open_[after.run_id] = after;
  }
  void forget(const Uuid& run_id) override {
    acts_.erase(run_id);
    open_.erase(run_id);
  }

 private:
  std::map<Uuid, OpenRun> open_;
  std::map<Uuid, std::vector<KeptAct>> acts_;
};

/// A classroom with a simulated bench for each of two students.
class PracticeRoom : public Classroom {
 protected:
  PracticeRoom() {
    for (const char* name : {"Bo Fern", "Cai Ash"}) {
      students.push_back(shop.put_person({.id = id(), .name = name, .role = Role::student}, teacher).id);
    }
    visitor = shop.put_person({.id = id(), .name = "Di Heath", .role = Role::visitor}, teacher).id;
    start();
  }

  /// As the program does when it is started: everything is read anew, and nothing is in memory.
  void start(std::size_t live_runs = 2) {
    practice = std::make_unique<Practice>(
        shop, *practice_store, book,
        Surroundings{.now = [this] { return clock; }, .random = [this](auto bytes) { fill(bytes); }}, live_runs);
  }

  void fill(std::span<std::uint8_t> bytes) {
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice_state_ = dice_state_ * 1103515245U + 12345U);
  }

  PracticeFile begin(const Uuid& person, std::optional<std::int64_t> seed = {}, std::int64_t difficulty = 1) {
    clock += std::chrono::minutes(1);
    return practice->begin({.difficulty = difficulty, .seed = seed}, person);
  }

  PracticeAnswer act(const Uuid& run_id, std::int64_t number, const std::string& act_json,
                     std::optional<Uuid> by = {}) {
    clock += std::chrono::seconds(5);
    return practice->act(run_id, {number, act_json}, by.value_or(practice->person_of(run_id)));
  }

  std::string code_of(const std::function<void()>& work) {
    try {
      work();
    } catch (const InputError& refusal) {
      return refusal.code();
    }
    return "accepted";
  }

  static Json view_of(const PracticeFile& file) { return parse_json(file.line.run.view_json); }

  std::unique_ptr<PracticeStore> practice_store = store::open_practice(*store);
  BookOfTests book;
  std::unique_ptr<Practice> practice;
  std::vector<Uuid> students;
  Uuid visitor;

 private:
  std::uint32_t dice_state_ = 20261126;
};

inline const std::string kLook = R"({"do":"look"})";
inline const std::string kDecide = R"({"do":"decide","action":"leave"})";
inline const std::string kFinish = R"({"do":"finish"})";
inline const std::string kWait = R"({"do":"wait","minutes":5})";

}  // namespace brakewright::shop
