package assess

import (
	"cmp"

	"clampline/analysis"
	"clampline/analysis/extract"
)

// A load of which the sheet does not say what a surge meets there counts by the worse
// of two: open, and an input filter. Two circuits are solved, with all such loads open
// and with all of them filters, and every voltage is the higher one.
//
// Both are solved for every case, since neither is the safe side. On the three demos, by
// the usual surges from the supply and all cases together, filters lead to more than 5 %
// above what open loads do in 50 % of the judged modes of loads and in 19 % of those of
// boards, at most to 4.6 times as much: a filter lets the surge of a line into the
// neutral, and swings with its branch. By the same surges that arrive at each board and
// load it is 74 % and 27 %. Elsewhere open loads lead to as much or more.
//
// It is no bound. With some of the loads open and others filters, 14 to 22 mixtures of
// each demo, 32 of 107 modes were more than 5 % above both by surges from the supply, 8
// more than 20 %, one 3.4 times as high, and 4 had another verdict; by surges that
// arrive at each board and load 9 of 116, none by more than 20 % and none with another
// verdict. Whoever wants to know states what the loads are.

// bothWays joins the solutions of a case with the unstated loads open and, where there
// are any, with them as filters: that has no result where the surge comes to none. The
// error is that of either.
func bothWays(found []solution, errs []error) (solution, error) {
	if len(found) > 1 && found[1].result != nil {
		found[0].filtered = &found[1]
	}
	return found[0], cmp.Or(errs...)
}

// taken returns a solution with the one beside it.
func (s solution) taken() []solution {
	if s.filtered == nil {
		return []solution{s}
	}
	open := s
	open.filtered = nil
	return []solution{open, *s.filtered}
}

// outcome puts a solution in the words of results: the worse of two where there are
// two.
func (s solution) outcome() analysis.SurgeResult {
	if s.filtered == nil {
		return s.alone()
	}
	both := []analysis.SurgeResult{s.alone(), s.filtered.alone()}
	for _, peaks := range both[1].Buses {
		for i := range peaks {
			peaks[i].Filtered = true
		}
	}
	out := worstOf(s.in.Surge, both, func(*analysis.Peak, int) {})
	out.Taken, out.Assumptions = both, nil
	loads := s.circuit.Unstated
	for _, a := range both[0].Assumptions {
		if a == extract.AsOpen(loads) {
			a = extract.AsEither(loads)
		}
		out.Assumptions = append(out.Assumptions, a)
	}
	return out
}

// peaks returns the greatest voltages of each bus of the circuit: the higher of two
// where there are two.
func (s solution) peaks() [][]analysis.Peak {
	var out [][]analysis.Peak
	for i, bus := range s.circuit.Network.Buses {
		peaks := peaksOf(bus, s.result.Buses[i])
		if s.filtered != nil {
			for _, peak := range peaksOf(bus, s.filtered.result.Buses[i]) {
				peak.Filtered = true
				peaks = withPeak(peaks, peak)
			}
		}
		out = append(out, peaks)
	}
	return out
}
