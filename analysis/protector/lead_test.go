package protector

import (
	"math"
	"math/rand/v2"
	"testing"
)

// definite reports whether a symmetric matrix is positive definite (Cholesky).
func definite(a []float64, n int) bool {
	l := make([]float64, n*n)
	for i := range n {
		for j := range i + 1 {
			sum := a[i*n+j]
			for k := range j {
				sum -= l[i*n+k] * l[j*n+k]
			}
			if i != j {
				l[i*n+j] = sum / l[j*n+j]
			} else if sum > 0 {
				l[i*n+i] = math.Sqrt(sum)
			} else {
				return false
			}
		}
	}
	return true
}

// Whatever somebody draws, the leads must be something that can exist, even
// without the wiring inside the protector.
func TestBundleIsPositiveDefinite(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 20000 {
		lead := func() Lead {
			l := Lead{Length: math.Pow(10, -4+6*r.Float64()), Area: math.Pow(10, -7+5*r.Float64())}
			if r.IntN(5) == 0 {
				l.Length = 0
			}
			return l
		}
		leads := Leads{Phase: lead(), Neutral: lead(), Earth: lead(), Run: Run(r.IntN(3)), Coils: r.IntN(3)}
		letters := []string{"ABCNG", "ABNG", "AG", "AN", "NG"}[r.IntN(5)]
		henries, ohms := leads.bundle(letters)
		n := len(letters)
		for i := range n {
			henries[i*n+i] -= inside
			if !(ohms[i] > 0) {
				t.Fatalf("%+v: resistance %g", leads, ohms[i])
			}
		}
		if !definite(henries, n) {
			t.Fatalf("%+v, %s: %v is not positive definite", leads, letters, henries)
		}
	}
}

// loop returns the inductance of the first two leads as go and return, without
// the wiring inside.
func loop(l Leads, letters string) float64 {
	h, _ := l.bundle(letters)
	n := len(letters)
	return h[0] + h[n+1] - h[1] - h[n] - 2*inside
}

func TestLeads(t *testing.T) {
	lead := func(length float64) Leads {
		return Leads{Phase: Lead{Length: length}, Neutral: Lead{Length: length}, Earth: Lead{Length: length}}
	}
	long := lead(0.6604)
	separate := loop(long, "AN")
	// The figure behind the trade's 25 V per inch; common practice, no source.
	within(t, "each separate lead, H/m, from 6 to 26 in", (separate-loop(lead(0.1524), "AN"))/2/0.508, 1e-6, 0.02)
	long.Run = Bundled
	bundled := loop(long, "AN")
	long.Run = Twisted
	twisted := loop(long, "AN")
	if !(twisted < bundled && bundled < separate/2) {
		t.Errorf("twisted %g H, bundled %g H, separate %g H: want each below the next, bundled below half of separate", twisted, bundled, separate)
	}
	coiled := lead(0.6604)
	coiled.Coils = 2
	within(t, "two turns in each lead", loop(coiled, "AN")-separate, 4*turn(slack, math.Sqrt(usual/math.Pi)), 1e-9)
	coiled.Run, long.Run = Twisted, Twisted
	within(t, "turns of a twisted pair cancel", loop(coiled, "AN"), twisted, 1e-9)
	if none, short := loop(lead(0), "AN"), loop(lead(0.01), "AN"); none != short {
		t.Errorf("a lead of no length: got %g H, want the %g H of 10 mm", none, short)
	}
}

// Outside diameters of THHN, NEC chapter 9 table 5 (from memory), with copper
// diameters by ASTM B258. 8 %: what the plain formula is good for.
func TestInsulatedDiameter(t *testing.T) {
	for _, row := range []struct {
		name      string
		copper    float64 // mm
		insulated float64 // mm
	}{
		{"14 AWG", 1.628, 2.82}, {"12 AWG", 2.053, 3.30}, {"10 AWG", 2.588, 4.17}, {"8 AWG", 3.264, 5.49},
		{"6 AWG", 4.115, 6.45}, {"4 AWG", 5.189, 8.23}, {"2 AWG", 6.544, 9.75}, {"1/0 AWG", 8.251, 12.34}, {"4/0 AWG", 11.684, 16.31},
	} {
		d := row.copper * 1e-3
		within(t, row.name, Lead{Area: math.Pi * d * d / 4}.diameter(), row.insulated*1e-3, 0.08)
	}
}
