package extract

import (
	"fmt"
	"math"
	"strings"

	"clampline/analysis"
	"clampline/analysis/circuit"
	"clampline/diagram"
)

// What stands for what the sheet does not say of a feeder.
const (
	usualArea      = 33.6e-6 // m2: 2 AWG
	shortestLength = 0.05    // m: less is no feeder but a joint
)

// addFeeders adds every feeder that the surge reaches.
func (x *extractor) addFeeders() {
	for f := range x.Document.Feeders() {
		if x.ctx.Err() != nil {
			return
		}
		x.addFeeder(f)
	}
}

func (x *extractor) addFeeder(f diagram.Feeder) {
	from, to := x.busAt(f.From), x.busAt(f.To)
	if to == None || from == None && !f.Switch.Open {
		return
	}
	near, far := "", x.lettersOf(to)
	if !f.Switch.Open {
		near, far = x.coupled(f)
	}
	name := x.unique(x.Document.NameOf(f.ID))
	if f.Switch.Open {
		from, near = x.addBus(name+" open end", far), far
		x.assume(f.ID, "its switch is taken to open the neutral, too", "from the sheet")
	}
	run := x.run(f, far)
	run.Name, run.A, run.B = name, x.nodesOf(from, near), x.nodesOf(to, far)
	x.out.Runs[f.ID] = Run{From: from, To: to, Line: x.lay(f, run), Open: f.Switch.Open}
}

// coupled returns the conductors that a closed feeder joins, at either end in
// the same order: those of one letter. The two lines of a split phase are A and
// C of a high-leg delta, between which its centre tap is, and keep the letters
// that they have on a panel of their own.
func (x *extractor) coupled(f diagram.Feeder) (near, far string) {
	a, b := x.places[x.at[f.From]], x.places[x.at[f.To]]
	both := shared(letters(a.system), letters(b.system))
	switch {
	case a.system.Wiring == diagram.HighLeg && b.system.Wiring == diagram.Split:
		return strings.Replace(both, "B", "C", 1), both
	case a.system.Wiring == diagram.Split && b.system.Wiring == diagram.HighLeg:
		return both, strings.Replace(both, "B", "C", 1)
	}
	return both, both
}

func (x *extractor) busAt(end diagram.End) int {
	if at, ok := x.at[end]; ok {
		return x.places[at].bus
	}
	return None
}

// run returns the line that a feeder is, without its ends.
func (x *extractor) run(f diagram.Feeder, letters string) circuit.Line {
	f = x.filledIn(f)
	b := makeUp(f, len(letters), x.tone)
	if f.Velocity > 0 {
		b.speed = f.Velocity
	}
	z := b.l.Scaled(b.speed)
	if f.SurgeImpedance > 0 {
		z = z.Scaled(f.SurgeImpedance / z.Loop(0, backOf(letters)))
	}
	z = z.Scaled(x.Vary.feeder(f.ID))
	return circuit.Line{Z: z, R: b.r.Scaled(f.Length), Delay: f.Length / b.speed, Length: f.Length}
}

// backOf returns the conductor by which a current of the first comes back: the
// neutral, or else another line, or earth where there is no other.
func backOf(letters string) int {
	switch at := strings.IndexByte(letters, 'N'); {
	case at > 0:
		return at
	case len(letters) > 1:
		return 1
	}
	return circuit.ToEarth
}

// filledIn puts in what the sheet does not say.
func (x *extractor) filledIn(f diagram.Feeder) diagram.Feeder {
	if f.Area <= 0 {
		f.Area = usualArea
		x.assume(f.ID, "its size is taken as 2 AWG (34 mm²)", "common practice, no source")
	}
	f.Area = min(max(f.Area, 0.1e-6), 5000e-6)
	if f.Raceway == "" {
		f.Raceway = diagram.NonmetallicConduit
		x.assume(f.ID, "is taken to lie in a nonmetallic conduit, the worse case", "NEC chapter 9 table 9, column PVC")
	}
	if f.HasLay() && f.Lay == "" {
		x.assume(f.ID, "its wires are taken to lie loose, spread as far as a conduit lets them: more inductance than in a tight bundle, so more voltage at equipment with a filter; at a load that takes little it may be up to a fifth higher in a tight one", "derived; NEC chapter 9 table 1, from memory")
	}
	if f.Resistance > 0 {
		x.assume(f.ID, "the resistance typed in is taken as that of its metal, from which that of the skin follows that carries a surge", "textbook skin effect, at "+analysis.FigureIn(math.Round(x.tone), "Hz"))
	}
	if f.Reactance > 0 {
		x.assume(f.ID, "the reactance typed in is not used: it is that of a loop at the frequency of the mains, and a surge goes by the surge impedance and the wave speed typed in, or else by its make-up", "of the model")
	}
	if f.Length < shortestLength {
		f.Length = shortestLength
		x.assume(f.ID, fmt.Sprintf("counts as %g\u00a0m long, since less cannot be told from a joint", shortestLength), "of the model")
	}
	return f
}

// lay adds a feeder as a line, or as an inductance where it is too short for
// the step. It returns the number of the line, or None.
func (x *extractor) lay(f diagram.Feeder, l circuit.Line) int {
	if l.Delay < x.timing.step {
		if x.join(x.placeOf(f)) {
			x.addShort(l)
			return None
		}
		x.assume(f.ID, "is a line that takes one step of the computation, with the inductance of its length and more than its capacitance", "of the model")
		l.Z = l.Z.Scaled(l.Delay / x.timing.step)
		l.Delay = x.timing.step
	}
	a, b := x.placeOf(f)
	x.crossings = append(x.crossings, crossing{a, b, l.Delay})
	x.net.Lines = append(x.net.Lines, l)
	return len(x.net.Lines) - 1
}

// addShort adds the inductance and the resistance of a short feeder.
func (x *extractor) addShort(l circuit.Line) {
	m := len(l.A)
	inductance := l.Z.Scaled(l.Delay)
	inductor := circuit.Inductor{Name: l.Name, Henries: make([]float64, m*m), Ohms: make([]float64, m)}
	for i := range m {
		inductor.Branches = append(inductor.Branches, circuit.Branch{A: l.A[i], B: l.B[i]})
		inductor.Ohms[i] = l.R.Own + l.R.Mutual
		for j := range m {
			inductor.Henries[i*m+j] = inductance[i][j]
		}
	}
	x.net.Inductors = append(x.net.Inductors, inductor)
}
