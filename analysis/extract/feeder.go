package extract

import (
	"fmt"

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
		x.addFeeder(f)
	}
}

func (x *extractor) addFeeder(f diagram.Feeder) {
	from, to := x.busAt(f.From), x.busAt(f.To)
	if to == None || from == None && !f.Switch.Open {
		return
	}
	has := x.lettersOf(to)
	if !f.Switch.Open {
		has = shared(x.lettersOf(from), has)
	}
	if has == "" {
		x.assume(f.ID, "is left out: its ends share no conductor", "from the sheet")
		return
	}
	name := x.unique(x.Document.NameOf(f.ID))
	if f.Switch.Open {
		from = x.addBus(name+" open end", has)
		x.assume(f.ID, "its switch is taken to open the neutral, too", "from the sheet")
	}
	run := x.run(f, len(has))
	run.Name, run.A, run.B = name, x.nodesOf(from, has), x.nodesOf(to, has)
	x.out.Runs[f.ID] = Run{From: from, To: to, Line: x.lay(f, run), Open: f.Switch.Open}
}

func (x *extractor) busAt(end diagram.End) int {
	if at, ok := x.at[end]; ok {
		return x.places[at].bus
	}
	return None
}

// run returns the line that a feeder is, without its ends.
func (x *extractor) run(f diagram.Feeder, m int) circuit.Line {
	f = x.filledIn(f)
	b := makeUp(f, m)
	if f.Velocity > 0 {
		b.speed = f.Velocity
	}
	z := b.l.Scaled(b.speed)
	if f.SurgeImpedance > 0 {
		z = z.Scaled(f.SurgeImpedance / (2 * z.Own))
	}
	return circuit.Line{Z: z, R: b.r.Scaled(f.Length), Delay: f.Length / b.speed, Length: f.Length}
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
	if f.Length < shortestLength {
		f.Length = shortestLength
		x.assume(f.ID, fmt.Sprintf("counts as %g m long, since less cannot be told from a joint", shortestLength), "of the model")
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
	coil := circuit.Coil{Name: l.Name, Henries: make([]float64, m*m), Ohms: make([]float64, m)}
	for i := range m {
		coil.Branches = append(coil.Branches, circuit.Branch{A: l.A[i], B: l.B[i]})
		coil.Ohms[i] = l.R.Own + l.R.Shared
		for j := range m {
			coil.Henries[i*m+j] = inductance.Shared
		}
		coil.Henries[i*m+i] += inductance.Own
	}
	x.net.Coils = append(x.net.Coils, coil)
}
