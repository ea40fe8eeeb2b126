package circuit_test

import (
	"math"
	"testing"

	"clampline/analysis/circuit"
)

// bent is a curve of three pieces: 1 mS, 1 S and 10 S.
func bent() *circuit.Curve {
	return &circuit.Curve{Name: "bent", Volts: []float64{0, 100, 110, 112}, Amps: []float64{0, 0.1, 10.1, 30.1}}
}

func TestCurveHasTheCurrentOfItsPieces(t *testing.T) {
	for _, row := range []struct {
		name        string
		volts, amps float64
	}{
		{"origin", 0, 0},
		{"within the first piece", 50, 0.05},
		{"at a point", 100, 0.1},
		{"within the middle piece", 105, 5.1},
		{"at the last point", 112, 30.1},
		{"beyond the end, with the slope of the last piece", 212, 1030.1},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := bent()
			near(t, "current", c.Current(row.volts), row.amps)
			near(t, "voltage", c.Voltage(row.amps), row.volts)
			near(t, "current of the negative voltage", c.Current(-row.volts), -row.amps)
			near(t, "voltage of the negative current", c.Voltage(-row.amps), -row.volts)
		})
	}
}

// A curve that rises throughout has one current for a voltage and back.
func TestCurrentAndVoltageAreInverse(t *testing.T) {
	c := bent()
	for volts := -300.0; volts <= 300; volts += 0.37 {
		near(t, "voltage of the current", c.Voltage(c.Current(volts)), volts)
	}
}

func TestScaledCurveHoldsItsFactor(t *testing.T) {
	c := bent()
	s := c.Scaled("more", 1.1)
	if s.Name != "more" || c.Name != "bent" {
		t.Errorf("got the names %q and %q", s.Name, c.Name)
	}
	for _, amps := range []float64{-50, -0.1, 0, 0.03, 5, 30.1, 4000} {
		near(t, "voltage", s.Voltage(amps), 1.1*c.Voltage(amps))
	}
	near(t, "voltage of the curve it is made from", c.Voltage(0.1), 100)
}

// near allows for rounding only.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*max(1, math.Abs(want))) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}
