package fault

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

func within(t *testing.T, what string, got, want complex128, share float64) {
	t.Helper()
	if cmplx.Abs(got-want) > share*cmplx.Abs(want) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// Both halves of a winding in series are the whole, and one alone is what half
// says.
func TestFork(t *testing.T) {
	for _, r := range []rules{{}, {point: true}} {
		whole := r.impedance(0.08, 1.7)
		shared, each := r.fork(whole)
		within(t, "in series", 4*shared+2*each, whole, 1e-12)
		within(t, "one alone", shared+each, r.half(whole), 1e-12)
	}
}

// solveLinear solves a dense system in place.
func solveLinear(m [][]complex128) []complex128 {
	n := len(m)
	for i := range m {
		pivot := i
		for k := i; k < n; k++ {
			if cmplx.Abs(m[k][i]) > cmplx.Abs(m[pivot][i]) {
				pivot = k
			}
		}
		m[i], m[pivot] = m[pivot], m[i]
		for k := range m {
			if k != i {
				f := m[k][i] / m[i][i]
				for j := i; j <= n; j++ {
					m[k][j] -= f * m[i][j]
				}
			}
		}
	}
	out := make([]complex128, n)
	for i := range out {
		out[i] = m[i][n] / m[i][i]
	}
	return out
}

// bankByPhases solves the closed delta of a high-leg system with a fault from
// line A to the centre tap of the winding between C and A, phase by phase: three
// voltages behind the impedances of the supply's lines, three primary windings
// in delta, three secondary ones of which one is in two halves. It returns what
// the fault sees.
//
// Unknown are the supply's line currents a b c, the primary winding voltages u
// v w (of AB, BC, CA), the currents of the secondary windings AB and BC (one,
// since they are in series) and of both halves, and the fault current.
func bankByPhases(supply, winding, shared, each complex128) complex128 {
	turn := cmplx.Rect(1, 2*math.Pi/3)
	ea, eb, ec := complex(1, 0), 1/turn, turn
	// Unknowns: 0-2 voltages of the primary terminals against the supply's star,
	// 3 round current through AB and BC from A to C, 4 current of the half at A
	// toward A, 5 current of the half at C toward the tap, 6 fault current.
	m := make([][]complex128, 7)
	for i := range m {
		m[i] = make([]complex128, 8)
	}
	// Secondary winding currents make primary ones turn for turn; a half winding
	// carries half of what it draws. Line A draws those of AB and CA.
	half := complex(0.5, 0)
	lines := [3]complex128{ea, eb, ec}
	// primary current of AB (from A to B): round; of BC (from B to C): round;
	// of CA (from C to A): half of both halves, with the sign of the halves.
	for phase := range 3 {
		m[phase][phase] = 1
		m[phase][7] = lines[phase]
	}
	// V = E - supply × (current drawn): A draws AB − CA, B draws BC − AB, C draws CA − BC.
	// AB and BC deliver a current from their far end to their near one as drawn.
	ab, ca := 3, [2]int{4, 5}
	m[0][ab] += supply
	m[0][ca[0]] -= half * supply
	m[0][ca[1]] -= half * supply
	// B draws nothing: the round current goes in and out.
	m[2][ab] -= supply
	m[2][ca[0]] += half * supply
	m[2][ca[1]] += half * supply
	// Halves of CA, from C to A: the voltage from tap to A and from C to tap is
	// half of C against A on the primary less the leakage. Potential rises along
	// the current of a winding that delivers. With the fault, tap and A are one.
	m[3][2], m[3][0] = half, -half
	m[3][4], m[3][5] = -(each + shared), -shared // rise from tap to A is zero
	// Rise from C to the tap, and from A round by B to C, make none.
	// AB and BC in series from A to C: rise = V_A − V_C over the primary less twice the leakage.
	m[4][2], m[4][0] = half-1, 1-half
	m[4][5], m[4][4] = -(each + shared), -shared
	m[4][3] = -2 * winding
	// At C the round current arrives and goes on into the half.
	m[5][3], m[5][5] = 1, -1
	// At A the half delivers what the round current takes away and the fault.
	m[6][4], m[6][3], m[6][6] = 1, -1, -1
	solution := solveLinear(m)
	open := half * (ec - ea) // from tap to A, open
	return open / solution[6]
}

// The closed delta with a centre tap against the same solved phase by phase.
func TestBankAgainstPhases(t *testing.T) {
	for i, row := range []struct{ above, windings complex128 }{
		{0, 0.02i}, {0, 0.01 + 0.02i}, {0.003 + 0.01i, 0.01 + 0.02i}, {0.05 + 0.2i, 0.01 + 0.02i}, {1e-6i, 1},
	} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			r := rules{}
			shared, each := r.fork(3 * row.windings)
			within(t, "seen", r.bank(row.above, row.windings), bankByPhases(row.above, 3*row.windings, shared, each), 1e-9)
		})
	}
}

// Limits: windings without impedance leave a quarter of the loop between two
// lines; a stiff supply and pure reactance give 0.65 of Z1, worked by hand.
func TestBankLimits(t *testing.T) {
	r := rules{}
	within(t, "without windings", r.bank(0.02+0.04i, 0), (0.02+0.04i)/2, 1e-12)
	within(t, "nearly without", r.bank(0.02+0.04i, 1e-9i), (0.02+0.04i)/2, 1e-6)
	within(t, "stiff supply", r.bank(0, 1i), 0.65i, 1e-12)
}

// Figures of the project's facts, section 9, printed to two decimals.
func TestOffsetFactors(t *testing.T) {
	for _, row := range []struct{ xr, rms, peak float64 }{{4.9, 1.25, 2.16}, {6.6, 1.33, 2.29}} {
		if got := halfCycleFactor(row.xr); math.Abs(got-row.rms) > 0.005 {
			t.Errorf("X/R %g: rms %g, want %g", row.xr, got, row.rms)
		}
		if got := peakFactor(row.xr); math.Abs(got-row.peak) > 0.005 {
			t.Errorf("X/R %g: peak %g, want %g", row.xr, got, row.peak)
		}
	}
	// κ is 1.02 where there is no reactance and 2 where there is nothing else.
	if got := peakFactorIEC(1e-3); math.Abs(got-1.02*math.Sqrt2) > 1e-9 {
		t.Errorf("resistance alone: %g", got)
	}
	if got := peakFactorIEC(1e9); math.Abs(got-2*math.Sqrt2) > 1e-6 {
		t.Errorf("reactance alone: %g", got)
	}
}

// Textbooks' faults on generators with three different sequence impedances:
// what this package calls the impedance of a line is the mean of Z1 and Z2
// there.
func TestSequenceFaults(t *testing.T) {
	base := 13.2e3 * 13.2e3 / 25e6
	star := diagram.System{Wiring: diagram.Wye, Neutral: true, Earthing: diagram.Solid}
	for _, row := range []struct {
		name        string
		volts       float64
		z1, z2, z0  complex128
		earth, line float64 // A; 0 not given
	}{
		// 25 MVA, 13.2 kV, X'' 0.25, X2 0.35, X0 0.1 (Stevenson's classic; byjus.com prints 4684.38 A)
		{"alternator of 25 MVA", 13.2e3, complex(0, 0.25*base), complex(0, 0.35*base), complex(0, 0.1*base), 4684, 0},
		// Mehta and Mehta, Principles of Power System, 18.14 and 18.17 (Scilab companion)
		{"generator and feeder", 11e3, 2.2i, 1.9i, 3.4i, 2540, 0},
		{"line to line", 10.4e3, 0.6i, 0.5i, 0.2i, 0, 9454.5},
	} {
		var f analysis.Fault
		star.Voltage = row.volts
		rules{}.currents(&f, &device{}, star, seen{line: (row.z1 + row.z2) / 2, back: row.z0, hasBack: true}, nil)
		if row.earth > 0 && math.Abs(f.LineEarth-row.earth) > 0.0005*row.earth {
			t.Errorf("%s: got %.1f A to earth, want %.1f", row.name, f.LineEarth, row.earth)
		}
		if row.line > 0 && math.Abs(f.LineLine-row.line) > 0.0005*row.line {
			t.Errorf("%s: got %.1f A between lines, want %.1f", row.name, f.LineLine, row.line)
		}
	}
}
