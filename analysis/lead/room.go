package lead

import (
	"clampline/analysis"
	"clampline/diagram"
)

// ShareUnsaid is the share of a VPR that leads may add without a word; common practice,
// no source.
const ShareUnsaid = 0.1

// Room is how much longer than a plan has them the leads of a protector may be.
type Room struct {
	By   float64    // m, each lead; 0 where there is no room
	Part diagram.ID // whose verdict sets it; empty where the rule on leads does
}

// RoomOf returns how much longer each lead of a protector may be before something gets
// worse: before the rule on leads says something (what they add to a VPR, or by IEC
// that line and earth side are over the preferred length), and before a board or load
// that the protector decides of a result loses its verdict. Leads count as apart,
// however they run. What stands elsewhere than the protector rises by twice what it
// does at its bus: the most that a line doubles, and more than is needed where it does
// not.
func RoomOf(p *diagram.Protector, iec bool, result *analysis.Result) Room {
	pair, rate := Longest(p), RateOf(false)
	free, each := max(0, rate.Free-(pair.Line+pair.Back)/2), rate.VPR // V per metre by which both get longer
	if p.Rating == diagram.Up {
		free, each = 0, 2*rate.Up
	}
	out := Room{By: free}
	switch level := LineLevel(p); {
	case iec || p.Rating == diagram.Up:
		out.By = max(0, (Preferred-pair.Line-pair.Back)/2)
	case level > 0:
		out.By += max(0, ShareUnsaid*level-1-rate.Volts(p.Rating, pair, nil)) / each // at the share itself it speaks
	}
	for id, bus := range result.Buses {
		share := 2.0
		if id == p.Bus {
			share = 1
		}
		for _, l := range bus.Levels {
			if l.Protector != p.ID || !l.Judged {
				continue
			}
			if margin, holds := marginOf(l); holds {
				by := free + margin/(share*each)
				if by < out.By || by == out.By && out.Part != "" && diagram.CompareID(id, out.Part) < 0 {
					out = Room{by, id}
				}
			}
		}
	}
	return out
}

// marginOf returns by how much a voltage may rise before its verdict is another one, V,
// and false where it is neither held nor tight.
func marginOf(l analysis.Level) (float64, bool) {
	switch {
	case !l.Known || l.Withstand <= 0:
		return 0, false
	case l.Verdict == analysis.Held:
		return analysis.HeldLimit*l.Withstand - l.Volts, true
	case l.Verdict == analysis.Tight:
		return l.Withstand - l.Volts, true
	}
	return 0, false
}

// LineLevel returns the lowest rating between a line and neutral or earth, V, or 0.
func LineLevel(p *diagram.Protector) float64 {
	out := 0.0
	for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth} {
		if r := p.Modes[mode]; r.Connected && r.Level > 0 && (out == 0 || r.Level < out) {
			out = r.Level
		}
	}
	return out
}
