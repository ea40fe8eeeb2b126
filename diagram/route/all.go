package route

import "clampline/diagram/geom"

// Obstacles is what lines should not run through.
type Obstacles interface {
	// Blocked reports whether something lies on the straight piece from a to b,
	// which is parallel to an axis.
	Blocked(a, b geom.Point) bool
}

// All leads every run and returns its line from From to To, in the order of
// the runs. Obstacles may be nil.
func All(runs []Run, obstacles Obstacles) []geom.Polyline {
	taps := chooseTaps(runs)
	lanes := assignLanes(runs, taps)
	lines := make([]geom.Polyline, len(runs))
	leader := leader{obstacles: obstacles, met: map[heading]int{}, points: make([]geom.Point, 0, 4*len(runs))}
	for i := range runs {
		lines[i] = leader.lead(taps[i][0], taps[i][1], lanes[i])
	}
	return lines
}

// Between leads a single run, as All does. Obstacles may be nil.
func Between(from, to Terminal, obstacles Obstacles) geom.Polyline {
	return All([]Run{{from, to}}, obstacles)[0]
}

// chooseTaps chooses the taps: first on the sides of bars that lines leave, which
// decides whether they are straight, then on those where they only arrive.
func chooseTaps(runs []Run) [][2]tap {
	taps := make([][2]tap, len(runs))
	first := make([]tapped, 0, len(runs))
	left := map[barSide]bool{}
	for i, run := range runs {
		taps[i] = [2]tap{run.From.tap(), run.To.tap()}
		if run.From.Bar > 0 {
			end := wanting(i, false, run.From, run.To.At)
			left[end.barSide] = true
			first = append(first, end)
		}
	}
	var later []tapped
	for i, run := range runs {
		if run.To.Bar == 0 {
			continue
		}
		if end := wanting(i, true, run.To, run.From.At); left[end.barSide] {
			first = append(first, end)
		} else {
			later = append(later, end)
		}
	}
	place := func(end tapped, offset float64) {
		taps[end.run][end.which()] = end.terminal(runs).tapAt(offset, end.side)
	}
	spread(first, place)
	for i, end := range later {
		later[i] = wanting(end.run, true, runs[end.run].To, taps[end.run][0].at)
	}
	spread(later, place)
	align(runs, taps)
	return taps
}

// align takes the last hair of rounding out of lines that are straight.
func align(runs []Run, taps [][2]tap) {
	for i, run := range runs {
		if run.To.Bar > 0 {
			taps[i][1].align(taps[i][0].at)
		} else if run.From.Bar > 0 {
			taps[i][0].align(taps[i][1].at)
		}
	}
}

// wanting returns what an end of a run on a bar wants: to stand before the other
// end, or as near to that as the bar reaches.
func wanting(run int, to bool, bar Terminal, other geom.Point) tapped {
	beyond := bar.offset(other)
	return tapped{
		run: run, to: to, barSide: barSide{bar.Bar, bar.side(other)},
		want: clamp(beyond, -bar.Span, bar.Span), beyond: beyond, span: bar.Span,
	}
}
