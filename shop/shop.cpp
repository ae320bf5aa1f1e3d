#include "shop/shop.hpp"

#include <algorithm>
#include <array>

#include "shop/changing.hpp"
#include "shop/find.hpp"
#include "shop/journal/chain.hpp"
#include "shop/json.hpp"
#include "shop/progress.hpp"
#include "shop/texts.hpp"

namespace brakewright::shop {

DoubtfulReading::DoubtfulReading(std::string field, std::vector<Doubt> doubts)
    : InputError("doubtful_reading", std::move(field),
                 doubts.empty() ? "this reading looks wrong" : doubts.front().message),
      doubts_(std::move(doubts)) {}

Shop::Shop(Store& store, Surroundings surroundings) : store_(store), surroundings_(std::move(surroundings)) {}

void Shop::on_change(std::function<void(const Change&)> listener) {
  const std::lock_guard lock(announcing_);
  listeners_.push_back(std::move(listener));
}

void Shop::announce() {
  {
    const std::lock_guard lock(guard_);
    if (depth_ > 0 || unannounced_.empty()) return;
  }
  const std::lock_guard order(announcing_);
  while (true) {
    Change change;
    {
      const std::lock_guard lock(guard_);
      if (unannounced_.empty()) return;
      change = std::move(unannounced_.front());
      unannounced_.pop_front();
    }
    for (const auto& listener : listeners_) listener(change);
  }
}

void Shop::batch(const std::function<void()>& work) {
  {
    const std::lock_guard lock(guard_);
    ++depth_;
    try {
      store_.transact(work);
    } catch (...) {
      --depth_;
      forget();
      throw;
    }
    if (--depth_ == 0) {
      for (Change& change : uncommitted_) unannounced_.push_back(std::move(change));
      uncommitted_.clear();
    }
  }
  announce();
}

Uuid Shop::new_id() {
  const std::lock_guard lock(guard_);
  return make_uuid7(surroundings_.now().time_since_epoch().count(), surroundings_.random);
}

void Shop::forget() {
  for (const Change& change : uncommitted_) {
    if (change.kind == "job.sealed") finished_.erase(change.subject_id);
  }
  if (depth_ == 0) uncommitted_.clear();
  people_.reset();
  instruments_.reset();
  lathes_.reset();
  zero_checks_.reset();
  pegboard_is_empty_.reset();
  hands_.reset();
  files_.clear();
  assessments_.clear();
  ++context_;
}

void Shop::record(std::string kind, std::optional<Uuid> job_id, const Uuid& subject_id, std::string detail_json,
                  const Uuid& by) {
  const UtcTime now = surroundings_.now();
  std::array<std::uint8_t, 16> salt{};
  surroundings_.random(salt);
  Change change = store_.append({.seq = 0,
                                 .id = new_id(),
                                 .kind = std::move(kind),
                                 .job_id = job_id,
                                 .subject_id = subject_id,
                                 .detail_json = std::move(detail_json),
                                 .by_person_id = by,
                                 .at = now,
                                 .salt = hex_of(salt)});
  if (job_id) {
    const auto found = files_.find(*job_id);
    if (found != files_.end()) found->second.seq = change.seq;
  }
  uncommitted_.push_back(std::move(change));
}

void Shop::journaled(const Uuid& by, const std::function<void(const Recorder&)>& work) {
  changing(by, [&] {
    work(Recorder([&](std::string kind, std::optional<Uuid> job_id, const Uuid& subject_id, std::string detail_json) {
      record(std::move(kind), job_id, subject_id, std::move(detail_json), by);
    }));
    return true;
  });
}

void Shop::undisturbed(const std::function<void()>& work) {
  const std::lock_guard lock(guard_);
  work();
}

void Shop::hands_from(std::function<Hands()> learn) {
  const std::lock_guard lock(guard_);
  learn_hands_ = std::move(learn);
  hands_changed();
}

void Shop::hands_changed() {
  const std::lock_guard lock(guard_);
  hands_.reset();
  ++context_;
}

const Hands& Shop::known_hands() {
  if (!hands_) hands_ = learn_hands_ ? learn_hands_() : Hands();
  return *hands_;
}

const std::vector<Person>& Shop::known_people() {
  if (!people_) people_ = store_.people();
  return *people_;
}

const std::vector<Instrument>& Shop::known_instruments() {
  if (!instruments_) instruments_ = store_.instruments();
  return *instruments_;
}

const std::vector<Lathe>& Shop::known_lathes() {
  if (!lathes_) lathes_ = store_.lathes();
  return *lathes_;
}

const std::vector<ZeroCheck>& Shop::known_zero_checks() {
  if (!zero_checks_) zero_checks_ = store_.zero_checks({});
  return *zero_checks_;
}

namespace {

template <class E>
bool has(const std::vector<E>& all, const Uuid& id) {
  return std::any_of(all.begin(), all.end(), [&](const E& one) { return one.id == id; });
}

}  // namespace

void Shop::expect_person(const Uuid& id, const std::string& field) {
  if (!has(known_people(), id)) throw RuleError("unknown_person", field, "nobody in this shop has this id");
}

void Shop::expect_instrument(const std::optional<Uuid>& id, const std::string& field) {
  if (id && !has(known_instruments(), *id)) {
    throw RuleError("unknown_instrument", field, "no instrument of this shop has this id");
  }
}

void Shop::expect_lathe(const std::optional<Uuid>& id, const std::string& field) {
  if (id && !has(known_lathes(), *id)) throw RuleError("unknown_lathe", field, "no lathe of this shop has this id");
}

JobFile& Shop::file(const Uuid& job_id) {
  constexpr std::size_t kMostKept = 200;
  const auto found = files_.find(job_id);
  if (found != files_.end()) return found->second;
  auto loaded = store_.job_file(job_id);
  if (!loaded) throw RuleError("unknown_job", "job_id", "no job of this shop has this id");
  if (files_.size() >= kMostKept) files_.clear();
  return files_.emplace(job_id, std::move(*loaded)).first->second;
}

JobFile& Shop::open_file(const Uuid& job_id) {
  JobFile& found = file(job_id);
  if (found.job.state == JobState::sealed) {
    throw RuleError("sealed", "job_id", "this job is sealed; what is to be said now is an amendment");
  }
  return found;
}

JobPage Shop::jobs(const JobQuery& query) {
  if (query.limit < 1 || query.limit > 500) throw InputError("out_of_range", "limit", "must be from 1 to 500");
  if (query.offset < 0) throw InputError("out_of_range", "offset", "must be 0 or more");
  check_text(query.words, {});
  const std::lock_guard lock(guard_);
  JobPage page = store_.jobs(query);
  for (JobLine& line : page.lines) {
    if (line.job.state != JobState::open) continue;
    const JobFile& present = file(line.job.id);
    line.waits_for = waits_for(present, bench_ready(present));
  }
  return page;
}

JobFile Shop::job_file(const Uuid& job_id) {
  const std::lock_guard lock(guard_);
  return file(job_id);
}

JobFile Shop::job_file_by_number(std::int64_t number) {
  const std::lock_guard lock(guard_);
  auto found = store_.job_file_by_number(number);
  if (!found) throw RuleError("unknown_job", "job_id", "no job of this shop has this number");
  return std::move(*found);
}

std::vector<Change> Shop::changes(std::int64_t after, std::int64_t limit, std::optional<Uuid> job_id) {
  const std::lock_guard lock(guard_);
  return store_.changes(after, limit, job_id);
}

std::vector<Change> Shop::own_changes(UtcTime from, UtcTime to) {
  const std::lock_guard lock(guard_);
  return store_.own_changes(from, to);
}

std::int64_t Shop::last_seq() {
  const std::lock_guard lock(guard_);
  return store_.last_seq();
}

JournalHead Shop::journal_head() {
  const std::lock_guard lock(guard_);
  return store_.journal_head();
}

std::optional<JournalHead> Shop::seal_head(const Uuid& job_id) {
  const std::lock_guard lock(guard_);
  return store_.seal_head(job_id);
}

BenchReady Shop::bench_ready(const JobFile& asked) {
  if (!asked.job.lathe_id) return {};
  if (!pegboard_is_empty_) {
    const auto all = store_.pieces();
    pegboard_is_empty_ = std::none_of(all.begin(), all.end(), [](const Piece& piece) { return piece.active; });
  }
  return ready_with(find(known_lathes(), *asked.job.lathe_id), *pegboard_is_empty_);
}

Shop::Ground Shop::ground_for(const JobFile& asked) {
  return {.settings = store_.settings(),
          .instruments = known_instruments(),
          .zero_checks = known_zero_checks(),
          .lathes = known_lathes(),
          .ready = bench_ready(asked),
          .bench = bench_figures(asked),
          .hands = known_hands()};
}

Assessment Shop::assess_now(const JobFile& asked) {
  const Ground ground = ground_for(asked);
  return assess(asked, ground.context());
}

Assessment Shop::assessment(const Uuid& job_id) { return *assessed(job_id); }

std::shared_ptr<const Assessment> Shop::assessed(const Uuid& job_id) {
  bool on_a_lathe = false;
  {
    const std::lock_guard lock(guard_);
    on_a_lathe = file(job_id).job.lathe_id.has_value();
  }
  if (on_a_lathe) learn_finished();
  JobFile asked;
  Ground ground;
  std::uint64_t context = 0;
  {
    const std::lock_guard lock(guard_);
    const JobFile& present = file(job_id);
    const auto seen = assessments_.find(job_id);
    if (seen != assessments_.end() && seen->second.seq == present.seq && seen->second.context == context_) {
      return seen->second.assessment;
    }
    asked = present;
    ground = ground_for(present);
    context = context_;
  }
  auto made = std::make_shared<const Assessment>(assess(asked, ground.context()));
  const std::lock_guard lock(guard_);
  assessments_[job_id] = {asked.seq, context, made};
  return made;
}

}  // namespace brakewright::shop
