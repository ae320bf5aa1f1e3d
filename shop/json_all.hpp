#pragma once

/// Every type that has JSON, for explicit instantiation.
#define BRAKEWRIGHT_ALL_JSON(make)                                                                                     \
  make(Settings) make(CuttingRules) make(Person) make(Instrument) make(ZeroCheck) make(Lathe) make(Limit) make(Limits) \
      make(Seat) make(KnownPart) make(Job) make(Part) make(MeasuringPlan) make(Reading) make(Finding) make(Decision)   \
          make(Cut) make(Amendment) make(Piece) make(Booking) make(Insert) make(Corner) make(Band) make(Mount)         \
              make(ProofMark) make(MountProof) make(PlannedPass) make(ForeseenPass) make(CutPlan) make(Pass)           \
                  make(BenchStep) make(Refit) make(TaperPlate) make(NewRefit) make(JobFile) make(Change) make(NewJob)  \
                      make(NewReading) make(NewZeroCheck) make(NewFinding) make(NewDecision) make(NewCut)              \
                          make(NewMount) make(NewMountProof) make(NewCutPlan) make(NewForesight) make(NewPass)         \
                              make(NewBenchStep) make(NewBooking) make(NewAmendment)
