#include "core/bench_sim/cut/strip.hpp"

#include <algorithm>

namespace brakewright::bench_sim {
namespace {

constexpr int kMostSectors = 36, kLeastAnglesOfSector = 32;

}  // namespace

CutStrip::CutStrip(SimPart& part, int groups)
    : part_(&part),
      angles_(part.grid.angles),
      groups_(groups),
      sectors_(std::clamp(part.grid.angles / kLeastAnglesOfSector, 1, kMostSectors)),
      plain_(static_cast<std::size_t>(groups), true) {
  const std::size_t cells = static_cast<std::size_t>(groups) * lanes(angles_);
  for (auto& heights : heights_) heights.assign(cells, kNoIron);
  for (auto& tops : tops_) tops.assign(static_cast<std::size_t>(groups) * lanes(sectors_), kNoIron);
  hardness_.assign(cells, 1.0F);
}

int CutStrip::rings_of(int group) const { return std::clamp(part_->grid.rings - group * kLanes, 0, kLanes); }

void CutStrip::take_out_face(Side side, int group) {
  float* out = heights_[index(side)].data() + block(group) * lanes(angles_);
  float* tops = top(side, group, 0);
  std::fill(out, out + lanes(angles_), kNoIron);
  std::fill(tops, tops + lanes(sectors_), kNoIron);
  for (int lane = 0; lane < rings_of(group); ++lane) {
    const float* ring = part_->face(side).height_um.data() + part_->grid.at(group * kLanes + lane, 0);
    for (int angle = 0; angle < angles_; ++angle) {
      out[lanes(angle) + static_cast<std::size_t>(lane)] = ring[angle];
      float& highest = tops[lanes(sector_of(angle)) + static_cast<std::size_t>(lane)];
      highest = std::max(highest, ring[angle]);
    }
  }
}

void CutStrip::take_out_hardness(int group) {
  float* out = hardness_.data() + block(group) * lanes(angles_);
  bool plain = true;
  for (int lane = 0; lane < kLanes; ++lane) {
    const bool there = lane < rings_of(group);
    const float* ring = there ? part_->hardness.data() + part_->grid.at(group * kLanes + lane, 0) : nullptr;
    for (int angle = 0; angle < angles_; ++angle) {
      const float factor = there ? ring[angle] : 1.0F;
      out[lanes(angle) + static_cast<std::size_t>(lane)] = factor;
      plain = plain && factor == 1.0F;
    }
  }
  plain_[block(group)] = plain;
  not_plain_ += !plain;
}

void CutStrip::take_out(int group) {
  for (const Side side : kSides) take_out_face(side, group);
  take_out_hardness(group);
}

void CutStrip::bring_back(int group) const {
  for (const Side side : kSides) {
    const float* out = heights_[index(side)].data() + block(group) * lanes(angles_);
    for (int lane = 0; lane < rings_of(group); ++lane) {
      float* ring = part_->face(side).height_um.data() + part_->grid.at(group * kLanes + lane, 0);
      for (int angle = 0; angle < angles_; ++angle) ring[angle] = out[lanes(angle) + static_cast<std::size_t>(lane)];
    }
  }
}

void CutStrip::bring_back() const {
  for (int group = from_; group < to_; ++group) bring_back(group);
}

void CutStrip::hold(int from, int to) {
  if (from < from_ || from > to_) {  // going back, or far ahead, is rare
    bring_back();
    from_ = to_ = from;
    not_plain_ = 0;
  }
  for (; to_ < to; ++to_) {
    if (to_ - from_ == groups_) {
      bring_back(from_);
      not_plain_ -= !plain_[block(from_)];
      ++from_;
    }
    take_out(to_);
  }
}

NoseRow CutStrip::row(Side side, int angle) {
  return {.height = heights_[index(side)].data() + lanes(angle),
          .hardness = not_plain_ > 0 ? hardness_.data() + lanes(angle) : nullptr,
          .top = tops_[index(side)].data() + lanes(sector_of(angle)),
          .next_height = lanes(angles_),
          .next_top = lanes(sectors_),
          .blocks = groups_};
}

}  // namespace brakewright::bench_sim
