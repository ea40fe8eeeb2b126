package handrule

import (
	"context"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// findJudged finds, for each place, the board or load that a feeder to it
// leads to: the nearest downstream, or else upstream, without crossing a
// transformer or an open switch.
func (s *solver) findJudged() {
	for i := len(s.places) - 1; i >= 0; i-- {
		p := &s.places[i]
		if p.result != nil {
			p.below = i
		}
		if p.up == none || p.below == none || s.places[p.up].region != p.region {
			continue
		}
		up := &s.places[p.up]
		if up.below == none || s.places[p.below].node.Total <= s.places[up.below].node.Total {
			up.below = p.below
		}
	}
	for i := range s.places {
		p := &s.places[i]
		switch {
		case p.result != nil:
			p.above = i
		case p.up != none && s.places[p.up].region == p.region:
			p.above = s.places[p.up].above
		}
	}
}

// judgedAt returns the place by whose withstand the wiring at a place is
// judged, or none.
func (s *solver) judgedAt(i int) int {
	if below := s.places[i].below; below != none {
		return below
	}
	return s.places[i].above
}

// stretch is a feeder as a surge sees it: it comes from the near end.
type stretch struct {
	near, far int // places; near is none where nothing reaches it that way, far where it ends open
	length    float64
	backward  bool // the near end is the To of the feeder
}

func (s *solver) alongFeeders(ctx context.Context) map[diagram.ID]analysis.FeederResult {
	out := make(map[diagram.ID]analysis.FeederResult, len(s.feeders))
	for i := range s.feeders {
		if ctx.Err() != nil {
			return nil
		}
		f := &s.feeders[i]
		out[f.ID] = analysis.FeederResult{ID: f.ID, Samples: s.along(s.stretch(f))}
	}
	return out
}

// stretch tells which way a surge comes along a feeder. A feeder whose switch,
// at its From, is open hangs on its To.
func (s *solver) stretch(f *diagram.Feeder) stretch {
	from, to := s.at[s.topology.Nodes[f.From]], s.at[s.topology.Nodes[f.To]]
	down := s.places[to].node.Feeder == f.ID
	up := s.places[from].node.Feeder == f.ID
	switch {
	case f.Switch.Open && down:
		return stretch{near: none, far: to, length: f.Length}
	case f.Switch.Open:
		return stretch{near: to, far: none, length: f.Length, backward: true}
	case up || !down && s.places[from].node.Depth > s.places[to].node.Depth:
		return stretch{near: to, far: from, length: f.Length, backward: true}
	}
	return stretch{near: from, far: to, length: f.Length}
}

// line is the voltage along a stretch in one mode, judged by one withstand.
type line struct {
	stretch
	front     front
	total     float64          // of the near end, back to the source, m
	withstand float64          // V; 0 not known
	bare      analysis.Verdict // where nothing reaches it
}

// along samples the voltage along a stretch, in the worst mode of what it
// leads to, and returns it from the feeder's From to its To.
func (s *solver) along(st stretch) []analysis.Sample {
	end := st.far
	if end == none {
		end = st.near
	}
	l := line{stretch: st, bare: analysis.Unreached}
	mode := diagram.LineEarth
	if judged := s.judgedAt(end); judged != none {
		end = judged
		mode, l.withstand = s.places[judged].result[0].Mode, s.places[judged].result[0].Withstand
	}
	if !s.places[end].node.System.Known() {
		return []analysis.Sample{{Share: 0}, {Share: 1}}
	}
	if st.near != none {
		near := &s.places[st.near]
		l.front, l.total = near.reach.fronts[mode], near.node.Total
		l.bare = bareVerdict(near.reach.refused[mode])
	}
	samples := s.arriving(&l)
	if st.far != none {
		samples = s.ending(samples, &l, mode)
	}
	if st.backward {
		slices.Reverse(samples)
		for i := range samples {
			samples[i].Share = 1 - samples[i].Share
		}
	}
	return samples
}

// bareVerdict returns the verdict where nothing holds a mode, by what stands
// in the way.
func bareVerdict(why *refused) analysis.Verdict {
	o := outcome{reason: analysis.NoProtector}
	if why != nil {
		o.reason = why.reason
	}
	return o.verdict(0)
}

// shareStep is the least distance between two samples, as a share of the
// feeder.
const shareStep = 1e-9

// arriving samples what comes from the near end.
func (s *solver) arriving(l *line) []analysis.Sample {
	var places []float64
	if l.length > 0 {
		for _, c := range l.front {
			places = s.turns(places, l, c)
		}
		slices.Sort(places)
	}
	out := make([]analysis.Sample, 0, len(places)+3)
	out = append(out, s.sample(l, 0, 0))
	for _, x := range places {
		share := x / l.length
		if share-out[len(out)-1].Share > shareStep && 1-share > shareStep {
			out = append(out, s.sample(l, share, x))
		}
	}
	return append(out, s.sample(l, 1, l.length))
}

// hair is how far beyond a limit of a verdict a sample is taken, in m, so that
// it has the verdict of what follows.
const hair = 1e-6

// turns appends the places along a line where the voltage from a cover reaches
// its limit, passes a limit of a verdict, or is far.
func (s *solver) turns(places []float64, l *line, c *cover) []float64 {
	start := c.distance(l.total)
	add := func(distance float64) {
		if x := distance - start; x > 0 && x < l.length {
			places = append(places, x)
		}
	}
	if c.falls(l) && c.metre > 0 {
		s.falling(l, c, func(x float64) { add(start + x) })
		return places
	}
	add(c.far)
	for _, limit := range [...]float64{analysis.HeldLimit * l.withstand, l.withstand} {
		if d, limited := allowed(limit, c.volts, c.limit, s.rule.steepness(), s.rule.Speed); limited {
			add(d + hair)
		}
	}
	for _, other := range l.front {
		if d, limited := allowed(other.limit, c.volts, c.limit, s.rule.steepness(), s.rule.Speed); limited {
			add(d)
		}
	}
	if s.slope > 0 {
		add((c.limit - c.volts) / s.slope)
	}
	return places
}

// falls reports whether the voltage of a cover falls along a line: its protector
// stands below, at the end of it or beyond.
func (c *cover) falls(l *line) bool { return c.below() && c.via == l.far }

// falling adds the places at which the voltage that falls along the feeder to a
// protector below passes a limit of a verdict or that of another cover.
func (s *solver) falling(l *line, c *cover, add func(x float64)) {
	for _, limit := range [...]float64{analysis.HeldLimit * l.withstand, l.withstand} {
		add((c.volts-limit)/c.metre + hair)
	}
	for _, other := range l.front {
		add((c.volts - other.volts - s.slope*other.distance(l.total)) / (c.metre + s.slope))
		add((c.volts - other.limit) / c.metre)
	}
}

func (s *solver) sample(l *line, share, x float64) analysis.Sample {
	c, volts, _ := l.front.lowest(l.total+x, s.rule)
	if c == nil {
		return analysis.Sample{Share: share, Verdict: l.bare}
	}
	for _, c := range l.front {
		if c.falls(l) {
			volts = min(volts, c.along(x))
		}
	}
	return analysis.Sample{Share: share, Known: true, Volts: volts, Verdict: analysis.Judge(volts, l.withstand)}
}

// lastPiece is the share of a feeder within which its colour changes to that
// of a bus which has a protector of its own.
const lastPiece = 1e-3

// ending replaces the last sample by the voltage at the far end itself, which
// may have a protector of its own.
func (s *solver) ending(samples []analysis.Sample, l *line, mode diagram.Mode) []analysis.Sample {
	o := s.outcome(l.far, mode)
	own := analysis.Sample{Share: 1, Known: o.known, Volts: o.volts, Verdict: o.verdict(l.withstand)}
	last := len(samples) - 1
	if own == samples[last] {
		return samples
	}
	arrives := samples[last]
	samples[last] = own
	if before := 1 - lastPiece; samples[last-1].Share < before {
		arrives.Share = before
		samples = slices.Insert(samples, last, arrives)
	}
	return samples
}
