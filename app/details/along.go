package details

import (
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// along says how the voltage goes along a feeder: "2 300 V to 4 600 V; Held to
// 52 ft, Tight to 88 ft, then Exceeded".
func along(f diagram.Feeder, result *analysis.Result, c unit.Convention) string {
	if result == nil {
		return ""
	}
	samples := result.Feeders[f.ID].Samples
	if len(samples) == 0 {
		return ""
	}
	out := stretches(samples, result.Basis, f.Length, c)
	first, last := samples[0], samples[len(samples)-1]
	if first.Known && last.Known {
		out = unit.Format(first.Volts, unit.Voltage, c) + " to " + unit.Format(last.Volts, unit.Voltage, c) + "; " + out
	}
	return out
}

// leastStretch is a length at the head of a feeder that is not worth telling, m.
const leastStretch = 0.01

// stretches says where along a feeder the verdict changes: by the hand rule at
// a sample, by the transient halfway between two.
func stretches(samples []analysis.Sample, basis analysis.Basis, length float64, c unit.Convention) string {
	var words []string
	now := samples[0].Verdict
	for i, s := range samples[1:] {
		at := s.Share
		if basis == analysis.Transient {
			at = (samples[i].Share + s.Share) / 2
		}
		if s.Verdict != now && at < 1 { // at the very end stands what the far bus has
			if at*length < leastStretch {
				now = s.Verdict
				continue
			}
			words = append(words, now.String()+" to "+unit.Format(at*length, unit.Length, c))
			now = s.Verdict
		}
	}
	if len(words) == 0 {
		return now.String() + " all along"
	}
	return strings.Join(words, ", ") + ", then " + now.String()
}
