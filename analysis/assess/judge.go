package assess

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/diagram"
)

// judge makes one result of the surge cases: each mode of a bus counts with
// the worst of them. The error is that of the context.
// Of a partial one, what decided before and is not solved yet stays.
func (t Turn) judge(ctx context.Context, doc *diagram.Document, hand *analysis.Result, solved []solvedCase, jobs []*job, partial bool) (*analysis.Result, error) {
	out := &analysis.Result{
		Basis: analysis.Transient, Plan: hand.Plan, Topology: hand.Topology, Breaks: hand.Breaks, Faults: hand.Faults,
		Buses: make(map[diagram.ID]analysis.BusResult, len(hand.Buses)),
	}
	var places []solution
	for _, c := range solved {
		out.Surges = append(out.Surges, c.outcome())
		for _, s := range c.origins {
			places = append(places, s.taken()...)
		}
	}
	for id, bus := range hand.Buses {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		out.Buses[id] = judgeBus(doc, bus, out.Surges)
	}
	out.Findings = dutyFindings(doc, out)
	out.Feeders = alongFeeders(doc, out, places)
	if partial {
		t.soFar(out, jobs)
		t.keep(doc, out)
	}
	for _, finding := range hand.Findings {
		if finding.Subject != analysis.SubjectCover && finding.Subject != analysis.SubjectSurge {
			out.Findings = append(out.Findings, finding)
		}
	}
	out.Findings = append(out.Findings, coverFindings(doc, hand, out)...)
	analysis.SortFindings(out.Findings)
	return out, ctx.Err()
}

// judgeBus replaces the voltages of the hand rule by the solved ones. Every mode
// counts that the board or load has: what the hand rule cannot tell, the
// solution does.
func judgeBus(doc *diagram.Document, hand analysis.BusResult, surges []analysis.SurgeResult) analysis.BusResult {
	out := analysis.BusResult{ID: hand.ID, System: hand.System}
	part, _ := doc.Part(hand.ID)
	judged := handrule.Judged(part, hand.System)
	for _, level := range hand.Levels {
		level.Judged = level.Judged || judged[level.Mode]
		out.Levels = append(out.Levels, judgeLevel(doc, hand.ID, level, surges))
	}
	slices.SortStableFunc(out.Levels, analysis.WorstFirst)
	return out
}

func judgeLevel(doc *diagram.Document, bus diagram.ID, hand analysis.Level, surges []analysis.SurgeResult) analysis.Level {
	out := analysis.Level{Mode: hand.Mode, Withstand: hand.Withstand, Judged: hand.Judged, Protector: hand.Protector}
	at, peak, reached := worstCase(bus, hand.Mode, surges)
	if !reached {
		out.Reason, out.Why = hand.Reason, hand.Why
		if hand.Reason != analysis.NoSystem {
			out.Reason, out.Why = analysis.OutOfReach, "No surge case reaches "+doc.NameOf(bus)+" through closed switches"
		}
		return out
	}
	out.Known, out.Volts, out.Reason = true, audible(peak.Volts), analysis.Solved
	out.Verdict = analysis.Judge(peak.Volts, hand.Withstand)
	out.Surge, out.Origin, out.Filtered = analysis.SurgeName(doc, surges[at].Surge), peak.Origin, peak.Filtered
	out.Why = fmt.Sprintf("Peak is %s, %.3g µs after the surge begins, in the surge case “%s”", peak.Between, peak.At*1e6, out.Surge)
	if peak.Origin != "" {
		out.Why += ", from " + doc.NameOf(peak.Origin)
	}
	if peak.Filtered {
		out.Why += ", with the loads of which nothing is said as input filters, the worse of two here"
	}
	if failed := surges[at].From(peak.Origin, peak.Filtered).Failed; len(failed) > 0 {
		out.Reason = analysis.Destroyed
		out.Why += ", without " + namesOf(doc, failed) + ", which the surge destroys"
	}
	if out.Verdict == analysis.Unknown {
		out.Reason, out.Why = analysis.NoWithstand, "The withstand of "+doc.NameOf(bus)+" is not known"
	}
	return out
}

// audible returns a voltage, or 0 where it is no more than what rounding leaves
// between two conductors that do the same.
func audible(volts float64) float64 {
	if volts < 1e-6 {
		return 0
	}
	return volts
}

// namesOf lists the names of some records, and how many more there are.
func namesOf(doc *diagram.Document, ids []diagram.ID) string {
	const most = 3
	var names []string
	for _, id := range ids[:min(most, len(ids))] {
		names = append(names, doc.NameOf(id))
	}
	if more := len(ids) - most; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return strings.Join(names, ", ")
}

// worstCase returns the surge case with the greatest voltage in a mode of a
// bus, and false where none reaches it.
func worstCase(bus diagram.ID, mode diagram.Mode, surges []analysis.SurgeResult) (at int, worst analysis.Peak, reached bool) {
	for i, s := range surges {
		if peak, ok := s.Worst(bus, mode); ok && (!reached || peak.Volts > worst.Volts) {
			at, worst, reached = i, peak, true
		}
	}
	return at, worst, reached
}

// coverFindings reports every board and load that is not Held, with what the
// hand rule says of the cause.
func coverFindings(doc *diagram.Document, hand, solved *analysis.Result) []analysis.Finding {
	var out []analysis.Finding
	stakes := analysis.NewStakes(doc, hand.Topology)
	byHand := coversOf(hand)
	for id, bus := range solved.Buses {
		worst := bus.Worst()
		if worst.Verdict == analysis.Held || worst.Reason == analysis.NoSystem || worst.Reason == analysis.SoFar {
			continue
		}
		part, _ := doc.Part(id)
		f := stakes.CoverFinding(part, worst, remedy(byHand[id], worst))
		if worst.Reason == analysis.Solved { // another place for a protector, or a bigger one, does not save one that the surge destroys
			f.Mend = byHand[id].Mend
		}
		out = append(out, f)
	}
	return out
}

// remedy takes over that of the hand rule where it found something, too.
func remedy(byHand analysis.Finding, worst analysis.Level) string {
	own := byHand.Remedy
	if worst.Reason == analysis.NoWithstand {
		own = "state what it withstands, for example by its overvoltage category"
	}
	if worst.Reason == analysis.OutOfReach {
		own = "close the switch if it is meant to be closed, or add a surge case that arrives there"
	}
	if worst.Reason == analysis.Destroyed {
		own = "use protectors rated for this surge, type 1 or class I for lightning currents"
	}
	return cmp.Or(own, "shorten the leads of the protector that holds it, or place one closer")
}

// coversOf returns what the hand rule found of the cover of each bus.
func coversOf(hand *analysis.Result) map[diagram.ID]analysis.Finding {
	out := map[diagram.ID]analysis.Finding{}
	for _, f := range hand.Findings {
		if f.Subject == analysis.SubjectCover {
			out[f.Records[0]] = f
		}
	}
	return out
}
