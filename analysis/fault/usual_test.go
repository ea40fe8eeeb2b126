package fault_test

import (
	"testing"

	"clampline/diagram"
)

// What stands for the impedance that a sheet does not give, at the limits of each
// band: the low end of the sources that analysis/usual names. Of three
// phases the current is that of the power over the per cent.
func TestUsualImpedance(t *testing.T) {
	iec := diagram.Codes{Practice: diagram.IECPractice}
	infinite := diagram.SourceData{}
	full := func(power float64, s diagram.System) float64 {
		if s.Phases() == 3 {
			return power / (root3 * s.Voltage)
		}
		return power / s.Voltage
	}
	transformer := func(t *testing.T, codes diagram.Codes, s diagram.System, power float64) (amps, xr float64) {
		primary := delta480
		if s.Phases() == 1 {
			primary = pair480
		}
		f := newSheet(t).codes(codes).supply("utility", primary, infinite).transformer("t", primary, s, diagram.TransformerData{Power: power}).
			join("utility > t:primary").at("t:secondary")
		return max(f.ThreePhase, f.LineLine), f.XR
	}
	utility := func(t *testing.T, codes diagram.Codes, s diagram.System, power float64) (amps, xr float64) {
		f := newSheet(t).codes(codes).supply("utility", s, diagram.SourceData{Power: power}).at("utility")
		return max(f.ThreePhase, f.LineLine), f.XR
	}
	dry240 := diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: diagram.Unearthed} // X/R of the whole winding
	for _, row := range []struct {
		name        string
		find        func(*testing.T, diagram.Codes, diagram.System, float64) (float64, float64)
		codes       diagram.Codes
		system      diagram.System
		power       float64
		percent, xr float64
	}{
		{"dry", transformer, diagram.Codes{}, wye208, 15e3, 3, 0.8}, {"dry", transformer, diagram.Codes{}, wye208, 15001, 3.5, 1.2},
		{"dry", transformer, diagram.Codes{}, wye208, 30e3, 3.5, 1.2}, {"dry", transformer, diagram.Codes{}, wye208, 30001, 4, 1.5},
		{"dry", transformer, diagram.Codes{}, wye208, 75e3, 4, 1.5}, {"dry", transformer, diagram.Codes{}, wye208, 75001, 4.5, 2},
		{"dry", transformer, diagram.Codes{}, wye208, 150e3, 4.5, 2}, {"dry", transformer, diagram.Codes{}, wye208, 150001, 5, 3},
		{"dry", transformer, diagram.Codes{}, wye208, 300e3, 5, 3}, {"dry", transformer, diagram.Codes{}, wye208, 300001, 5, 4},
		{"dry", transformer, diagram.Codes{}, wye208, 500e3, 5, 4}, {"dry", transformer, diagram.Codes{}, wye208, 500001, 5, 6},
		{"dry, one phase", transformer, diagram.Codes{}, dry240, 15e3, 3, 1}, {"dry, one phase", transformer, diagram.Codes{}, dry240, 15001, 3.5, 0.8},
		{"dry, one phase", transformer, diagram.Codes{}, dry240, 25e3, 3.5, 0.8}, {"dry, one phase", transformer, diagram.Codes{}, dry240, 25001, 5, 0.6},
		{"the utility's", utility, diagram.Codes{}, delta480, 50e3, 1.6, 1.5}, {"the utility's", utility, diagram.Codes{}, delta480, 50001, 1.6, 2},
		{"the utility's", utility, diagram.Codes{}, delta480, 167e3, 1.6, 2}, {"the utility's", utility, diagram.Codes{}, delta480, 167001, 1.6, 3},
		{"the utility's", utility, diagram.Codes{}, delta480, 300e3, 1.6, 3}, {"the utility's", utility, diagram.Codes{}, delta480, 300001, 1.8, 4},
		{"the utility's", utility, diagram.Codes{}, delta480, 500e3, 1.8, 4}, {"the utility's", utility, diagram.Codes{}, delta480, 500001, 5.75, 5.5},
		{"the utility's", utility, diagram.Codes{}, delta480, 1000e3, 5.75, 5.5}, {"the utility's", utility, diagram.Codes{}, delta480, 1000001, 5.75, 7},
		{"the utility's, one phase", utility, diagram.Codes{}, dry240, 100e3, 1.5, 2}, {"the utility's, one phase", utility, diagram.Codes{}, dry240, 100001, 1.8, 2},
		{"the utility's, one phase", utility, diagram.Codes{}, dry240, 167e3, 1.8, 2}, {"the utility's, one phase", utility, diagram.Codes{}, dry240, 167001, 3, 3},
		{"IEC 60076-5 table 1", transformer, iec, wye208, 630e3, 4, 6}, {"IEC 60076-5 table 1", transformer, iec, wye208, 631e3, 5, 6},
		{"IEC 60076-5 table 1", transformer, iec, wye208, 1250e3, 5, 6}, {"IEC 60076-5 table 1", transformer, iec, wye208, 1251e3, 6, 6},
		{"IEC 60076-5 table 1", transformer, iec, wye208, 2500e3, 6, 6}, {"IEC 60076-5 table 1", transformer, iec, wye208, 2501e3, 7, 6},
	} {
		amps, xr := row.find(t, row.codes, row.system, row.power)
		want := full(row.power, row.system) / (row.percent / 100)
		if row.codes == iec {
			want *= 1.10 / (1.05 * 1.05) // the voltage behind the fault, over windings for 1.05 times the nominal one
		}
		near(t, row.name, amps, want, exact)
		near(t, row.name+", X/R", xr, row.xr, exact)
	}
}
