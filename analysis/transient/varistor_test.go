package transient

import (
	"fmt"
	"math"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
)

// disc is the typical curve of a varistor: log10 V = B1 + B2 x + B3 e^-x +
// B4 e^x, x = log10 A, and a straight line to the origin below 1 mA. From a
// varistor library whose base is credited to a thesis at the Institute of High
// Voltage Engineering, TU Graz, 1994/95.
type disc struct {
	name           string
	b1, b2, b3, b4 float64
}

func disc130() disc  { return disc{"20 mm, 130 V", 2.4011200, 0.0253150, -0.0005975, 0.0051090} }
func disc150() disc  { return disc{"20 mm, 150 V", 2.4654363, 0.0246959, -0.0005738, 0.0053090} }
func disc250() disc  { return disc{"20 mm, 250 V", 2.6830619, 0.0261918, -0.0006173, 0.0045183} }
func disc320() disc  { return disc{"20 mm, 320 V", 2.7954614, 0.0262658, -0.0004941, 0.0046090} }
func disc550() disc  { return disc{"20 mm, 550 V", 3.0514418, 0.0266902, -0.0006016, 0.0041101} }
func block150() disc { return disc{"40 mm, 150 V", 2.4620502, 0.0222331, -0.0006945, 0.0032469} }
func block320() disc { return disc{"40 mm, 320 V", 2.7834706, 0.0236867, -0.0002420, 0.0034706} }
func block550() disc { return disc{"40 mm, 550 V", 3.0332455, 0.0239408, -0.0001258, 0.0035698} }

func (d disc) volts(amps float64) float64 {
	x := math.Log10(amps)
	return math.Pow(10, d.b1+d.b2*x+d.b3*math.Exp(-x)+d.b4*math.Exp(x))
}

// curve returns the curve as straight pieces, so many in a factor of ten.
func (d disc) curve(perDecade int) *circuit.Curve {
	c := &circuit.Curve{Name: d.name, Volts: []float64{0}, Amps: []float64{0}}
	for i := -3 * perDecade; i <= 5*perDecade; i++ {
		amps := math.Pow(10, float64(i)/float64(perDecade))
		c.Amps, c.Volts = append(c.Amps, amps), append(c.Volts, d.volts(amps))
	}
	return c
}

// pushed returns a varistor with a lead to a bus into which a current of a
// shape with the given crest is driven, whatever the voltage.
func pushed(curve *circuit.Curve, amps, lead float64, shape waveform.Shape) *circuit.Network {
	const ohms = 1e9 // a thousand volts there are a millionth of an ampere
	n := &circuit.Network{}
	bus := point(n, "bus")
	drive(n, bus, amps*ohms, ohms, shape)
	inner := bus
	if lead > 0 {
		inner = n.AddNode("inner")
		wind(n, bus, inner, lead, 0)
	}
	limit(n, inner, curve)
	return n
}

// crested returns an 8/20 whose crest is 1: its formula, at three of its time
// constants, has a little less.
func crested() waveform.Shape {
	s := waveform.Current8x20()
	s.Scale /= s.At(3 * s.Fall)
	return s
}

// An ideal current into one varistor: peak and energy worked out from curve
// and wave.
func TestVaristorTakesACurrent(t *testing.T) {
	short, long := crested(), waveform.Wave10x1000()
	for _, row := range []struct {
		disc          disc
		amps          float64
		shape         waveform.Shape
		volts, joules float64
	}{
		{disc130(), 3000, short, 451.3, 21.93},
		{disc150(), 3000, short, 528.6, 25.63},
		{disc250(), 3000, short, 832.4, 40.71},
		{disc320(), 3000, short, 1086.3, 53.07},
		{block150(), 10000, short, 534.9, 86.39},
		{block320(), 10000, short, 1168.7, 187.8},
		{disc150(), 220, long, 378.9, 111.6},
	} {
		t.Run(fmt.Sprintf("%s, %g A %s", row.disc.name, row.amps, row.shape.Name), func(t *testing.T) {
			step, duration := 20e-9, 100*microsec
			if row.shape.Name == long.Name {
				step, duration = 1*microsec, 8e-3
			}
			r := run(t, pushed(row.disc.curve(20), row.amps, 0, row.shape), Options{Step: step, Duration: duration})
			within(t, "peak", r.Buses[0][0].Volts, row.volts, 1e-3)
			within(t, "current", r.Varistors[0].Amps, row.amps, 1e-3)
			within(t, "energy", r.Varistors[0].Joules, row.joules, 5e-3)
			charge := waveform.Sample(row.shape, step, at(duration, step)+1).Charge() * row.amps
			within(t, "charge", r.Varistors[0].Coulombs, charge, 1e-3)
		})
	}
}

// The same with a straight lead of 1 µH/m: worked out from v(i) + L di/dt.
func TestVaristorBehindALead(t *testing.T) {
	metres := []float64{0, 0.15, 0.3, 0.5, 1, 2}
	for _, row := range []struct {
		disc disc
		amps float64
		want []float64 // V
	}{
		{disc150(), 500, []float64{408, 410, 415, 426, 459, 530}},
		{disc150(), 3000, []float64{529, 554, 609, 692, 911, 1355}},
		{disc320(), 3000, []float64{1086, 1100, 1140, 1213, 1421, 1859}},
		{block150(), 3000, []float64{441, 479, 541, 629, 851, 1297}},
		{block150(), 10000, []float64{535, 697, 915, 1211, 1955, 3445}},
		{block320(), 3000, []float64{951, 971, 1021, 1101, 1317, 1759}},
		{block320(), 10000, []float64{1169, 1277, 1477, 1764, 2501, 3987}},
		{block320(), 20000, []float64{1385, 1639, 2058, 2641, 4122, 7098}},
		{block550(), 10000, []float64{2108, 2173, 2336, 2602, 3319, 4795}},
	} {
		for i, lead := range metres {
			t.Run(fmt.Sprintf("%s, %g A, %g m", row.disc.name, row.amps, lead), func(t *testing.T) {
				n := pushed(row.disc.curve(20), row.amps, lead*1e-6, crested())
				r := run(t, n, Options{Step: 20e-9, Duration: 25 * microsec})
				within(t, "peak", r.Buses[0][0].Volts, row.want[i], 5e-3)
			})
		}
	}
}

// A wave of 2 MV on a line of 300 ohm into an ideal clamp of 1.2 MV: Ray,
// Electrical Power Systems, example 12.7, p. 412.
func TestClampAtTheEndOfALine(t *testing.T) {
	const volts, z, held = 2000 * kilo, 300.0, 1200 * kilo
	n, end := arriving(volts, z)
	limit(n, end, clamp(held))
	r := run(t, n, Options{Step: 1e-8, Duration: 5 * microsec, Record: toEarth(n)})
	amps := r.Varistors[0].Amps
	within(t, "current", amps, 9.333*kilo, printed)
	within(t, "voltage over the wave", r.Buses[1][0].Volts/volts, 0.6, printed)
	within(t, "resistance it is equal to", held/amps, 128.57, printed)
	within(t, "current of the wave", volts/z, 6.667*kilo, printed)
	w := r.Traces[0].Values
	within(t, "reflected over the wave", (w[len(w)-1]-volts)/volts, -0.4, printed)
}

// A curve of few, wide pieces turns as much to heat as its voltage times its
// current, on its first piece as on the others.
func TestDutyOnWidePieces(t *testing.T) {
	for _, row := range []struct {
		name          string
		volts, amps   []float64
		current, want float64 // A, V
	}{
		{"one piece", []float64{0, 100}, []float64{0, 10}, 5, 50},
		{"first of two", []float64{0, 100, 101}, []float64{0, 10, 100}, 5, 50},
		{"second of two", []float64{0, 100, 110}, []float64{0, 10, 110}, 60, 105},
		{"beyond the last", []float64{0, 100, 110}, []float64{0, 10, 110}, 210, 120},
		{"negative", []float64{0, 100, 110}, []float64{0, 10, 110}, -60, 105},
	} {
		t.Run(row.name, func(t *testing.T) {
			const duration = 10 * microsec
			r := run(t, pushed(&circuit.Curve{Name: "wide", Volts: row.volts, Amps: row.amps}, row.current, 0, step1()), Options{Step: 1e-8, Duration: duration})
			duty, amps := r.Varistors[0], math.Abs(row.current)
			within(t, "voltage", r.Buses[0][0].Volts, row.want, 1e-5)
			within(t, "current", duty.Amps, amps, 1e-5)
			within(t, "charge", duty.Coulombs, amps*duration, 1e-5)
			within(t, "energy", duty.Joules, amps*row.want*duration, 1e-5)
		})
	}
}
