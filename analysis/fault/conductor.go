package fault

import (
	"fmt"
	"math/cmplx"
	"slices"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// joined is the impedance below which two terminals are taken to be one, Ω.
const joined = 1e-9

// areaOf returns the cross-section of a line conductor, m2.
func areaOf(f *diagram.Feeder) float64 { return max(f.Area, 1e-8) }

// parallel returns how many conductors each line has.
func parallel(f *diagram.Feeder) float64 { return float64(max(f.Parallel, 1)) }

// sized reports whether enough is known of the conductors of a feeder for an
// impedance.
func (r rules) sized(f *diagram.Feeder) bool {
	return f.Area > 0 || stated(f) || r.point && f.Constant > 0
}

// stated reports whether a maker's figures are typed in.
func stated(f *diagram.Feeder) bool { return f.Resistance > 0 || f.Reactance > 0 }

// run returns the impedance of one line of a feeder, Ω: 0 where nothing is known
// of its conductors or it has no length. How it comes about by the point-to-point
// method hangs on what lies before it: pointFeeder writes that.
func (r rules) run(f *diagram.Feeder, frequency float64, w *writer) complex128 {
	if !r.sized(f) {
		if w != nil {
			w.say(w.name, "without impedance, the safe side: the size of its conductors is not known", noSource)
		}
		return 0
	}
	per := r.perMetre(f, frequency)
	z := per * complex(f.Length/parallel(f), 0)
	if cmplx.Abs(z) < joined {
		z = 0
	}
	if w != nil && !r.point {
		w.length(f, per, z)
	}
	return z
}

// length writes the impedance of a feeder from that of a metre of its conductors.
func (w *writer) length(f *diagram.Feeder, per, z complex128) {
	formula, unit, length, source := "Z = L (R′ + j X′) / n", "Ω per 1000 ft", analysis.FigureIn(f.Length/conductor.Foot, "ft"), w.conductorSource(f)
	per *= conductor.ThousandFeet
	if w.iec {
		unit, length = "mΩ/m", analysis.FigureIn(f.Length, "m")
		per *= 1000 / conductor.ThousandFeet
	}
	typed := ""
	switch {
	case stated(f):
		typed, source = "; "+typedIn(f)+" typed in", w.sourceOfStated(f)
	case w.iec:
		formula = "Z = L (ρ / A + j x′) / n"
	}
	w.ohms(w.name, formula, fmt.Sprintf("%s × (%.4g + j %.4g) %s / %.0f%s", length, real(per), imag(per), unit, parallel(f), typed), source, z)
}

// perMetre returns the impedance of one conductor, Ω/m.
func (r rules) perMetre(f *diagram.Feeder, frequency float64) complex128 {
	if r.point {
		return complex(1/(r.constant(f, frequency)*conductor.Foot), 0)
	}
	return r.conductor(f, frequency)
}

// conductor returns the impedance of one conductor from the table of the
// practice, Ω/m, with what is typed in instead.
func (r rules) conductor(f *diagram.Feeder, frequency float64) complex128 {
	var z complex128
	switch {
	case f.Area <= 0: // what is not typed in is left out, the safe side
	case r.iec:
		z = metric(f, frequency)
	default:
		z = tableNine(f, frequency)
	}
	if f.Resistance > 0 {
		z = complex(f.Resistance, imag(z))
	}
	if f.Reactance > 0 {
		z = complex(real(z), f.Reactance)
	}
	return z
}

// tableNine returns the impedance of a conductor by table 9, Ω/m. What is not
// a conduit of steel or aluminium is taken as the nonmetallic one, which has the
// least reactance.
func tableNine(f *diagram.Feeder, frequency float64) complex128 {
	metal, conduit, steel := columnsOf(f)
	area := areaOf(f)
	ohms := conductor.LookUp(area, func(row *conductor.Row) float64 { return row.R[metal][conduit] }, -1)
	x := conductor.LookUp(area, func(row *conductor.Row) float64 { return row.X[steel] }, 0) * frequency / 60
	return complex(ohms/conductor.ThousandFeet, x/conductor.ThousandFeet)
}

// columnsOf returns the columns of table 9 for a feeder.
func columnsOf(f *diagram.Feeder) (metal, conduit, steel int) {
	if f.Material == diagram.Aluminium {
		metal = conductor.OfAluminium
	}
	switch f.Raceway {
	case diagram.SteelConduit:
		conduit, steel = conductor.InSteelConduit, 1
	case diagram.AluminiumConduit:
		conduit = conductor.InAluminiumConduit
	}
	return metal, conduit, steel
}

// conductorSource says by which table a conductor goes.
func (r rules) conductorSource(f *diagram.Feeder) string {
	if r.iec {
		return metricSource
	}
	return conductor.Source + ": " + conduitTaken(f.Raceway)
}

// taken says which conduit of a table stands for a raceway: itself, where it is
// among the conduits that the table has.
func taken(w diagram.Raceway, as string, has ...diagram.Raceway) string {
	switch {
	case slices.Contains(has, w):
		return string(w)
	case w == "":
		return "raceway not known, taken as " + as
	}
	return string(w) + ", taken as " + as
}

// conduitTaken says which column of table 9 stands for a raceway.
func conduitTaken(w diagram.Raceway) string {
	return taken(w, "nonmetallic conduit", diagram.SteelConduit, diagram.AluminiumConduit, diagram.NonmetallicConduit)
}

// Conductors by the practice of IEC: reactances as installation guides have them.
const (
	cableReactance    = 0.08e-3 // Ω/m at 50 Hz, cables and conductors laid together (from memory)
	buswayReactance   = 0.15e-3 // Ω/m (a published calculation sheet, scribd.com/document/341834748)
	overheadReactance = 0.10e-3 // Ω/m, bundled; open wires have about three times that (from memory)
)

const metricSource = "resistivity at 20 °C of IEC 60909-0, usual reactance per metre; from memory, check your edition"

// metric returns the impedance of a conductor by the practice of IEC, Ω/m.
func metric(f *diagram.Feeder, frequency float64) complex128 {
	resistivity := conductor.CableCopper
	if f.Material == diagram.Aluminium {
		resistivity = conductor.CableAluminium
	}
	return complex(resistivity/areaOf(f), reactanceOf(f.Raceway)*frequency/50)
}

func reactanceOf(w diagram.Raceway) float64 {
	switch w {
	case diagram.Busway:
		return buswayReactance
	case diagram.Overhead:
		return overheadReactance
	}
	return cableReactance
}
