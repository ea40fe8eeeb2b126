package circuit_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis/circuit"
	"clampline/analysis/waveform"
	"math/rand/v2"
	"slices"
)

// whole returns a network with one element of each kind and nothing wrong.
func whole() *circuit.Network {
	n := spread(4)
	n.Buses = []circuit.Bus{{Name: "panel", Conductors: []circuit.Conductor{{'A', 1}, {'N', 2}}}}
	n.Lines = []circuit.Line{{Name: "feeder", A: []circuit.Node{1, 2}, B: []circuit.Node{3, 4}, Z: circuit.Balanced{Own: 70, Mutual: 35}.Matrix(2), Delay: 1e-7}}
	n.Resistors = []circuit.Resistor{{Name: "load", A: 3, B: 4, Ohms: 10}}
	n.Capacitors = []circuit.Capacitor{{Name: "filter", A: 3, Farads: 1e-9}}
	n.Inductors = []circuit.Inductor{{Name: "leads", Branches: []circuit.Branch{{A: 1, B: 2}, {A: 3}}, Henries: []float64{2e-6, 1e-6, 1e-6, 2e-6}, Ohms: []float64{0, 0.1}}}
	n.Windings = []circuit.Winding{{Name: "transformer", P: circuit.Branch{A: 1}, S: circuit.Branch{A: 2}, Ratio: 4, Henries: 46e-6}}
	n.Sources = []circuit.Source{{Name: "surge", A: 1, Volts: 6000, Shape: waveform.Voltage1_2x50(), Ohms: 2}}
	n.Varistors = []circuit.Varistor{{Name: "block", A: 1, B: 2, Curve: bent()}}
	n.Gaps = []circuit.Gap{{Name: "tube", A: 2, Sparkover: 600, Arc: 20, Ohms: 0.01, Hold: 0.5, Off: 1e9}}
	n.Diodes = []circuit.Diode{{Name: "valve", A: 1, B: 4, On: 1e-5, Off: 1e6}}
	return n
}

func TestWholeNetworkIsValid(t *testing.T) {
	if err := whole().Validate(); err != nil {
		t.Errorf("got %v", err)
	}
	if err := (&circuit.Network{}).Validate(); err != nil {
		t.Errorf("empty network: got %v", err)
	}
}

// refusal is a change that spoils the network, and what is said of it.
type refusal struct {
	name  string
	spoil func(n *circuit.Network)
	want  string
}

func refused(t *testing.T, rows []refusal) {
	t.Helper()
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			n := whole()
			row.spoil(n)
			err := n.Validate()
			if err == nil {
				t.Fatal("got no error")
			}
			if got := err.Error(); !strings.Contains(got, row.want) {
				t.Errorf("got %q, want it to hold %q", got, row.want)
			}
		})
	}
}

func TestValidateRefusesBusesAndLines(t *testing.T) {
	five := []circuit.Node{1, 2, 3, 4, 1}
	refused(t, []refusal{
		{"bus without conductors", func(n *circuit.Network) { n.Buses[0].Conductors = nil }, "bus panel: 0 conductors"},
		{"bus of five", func(n *circuit.Network) { n.Buses[0].Conductors = make([]circuit.Conductor, 5) }, "bus panel: 5 conductors"},
		{"bus off the network", func(n *circuit.Network) { n.Buses[0].Conductors[1].Node = 5 }, "bus panel: there is no node 5"},
		{"bus on earth", func(n *circuit.Network) { n.Buses[0].Conductors[1].Node = circuit.Earth }, "bus panel: a conductor is earth itself"},
		{"line without conductors", func(n *circuit.Network) { n.Lines[0].A, n.Lines[0].B = nil, nil }, "feeder: 0 conductors"},
		{"line of five", func(n *circuit.Network) { n.Lines[0].A, n.Lines[0].B = five, five }, "feeder: 5 conductors"},
		{"line with unlike ends", func(n *circuit.Network) { n.Lines[0].B = n.Lines[0].B[:1] }, "feeder: its ends differ"},
		{"near end off the network", func(n *circuit.Network) { n.Lines[0].A[0] = -1 }, "feeder: there is no node -1"},
		{"far end off the network", func(n *circuit.Network) { n.Lines[0].B[1] = 9 }, "feeder: there is no node 9"},
		{"near end in earth", func(n *circuit.Network) { n.Lines[0].A[1] = circuit.Earth }, "feeder: a conductor ends in earth itself"},
		{"far end in earth", func(n *circuit.Network) { n.Lines[0].B[0] = circuit.Earth }, "feeder: a conductor ends in earth itself"},
		{"no impedance", func(n *circuit.Network) { n.Lines[0].Z[0][0] = 0 }, "feeder: the surge impedance is 0"},
		{"impedance without end", func(n *circuit.Network) { n.Lines[0].Z[1][1] = math.Inf(1) }, "feeder: the surge impedance is +Inf"},
		{"impedances that differ by direction", func(n *circuit.Network) { n.Lines[0].Z[0][1] = 34 }, "feeder: its surge impedances are not symmetric"},
		{"shared impedance no number", func(n *circuit.Network) { n.Lines[0].Z[0][1] = math.NaN() }, "feeder: its surge impedances are not symmetric"},
		{"more shared than own", func(n *circuit.Network) { n.Lines[0].Z[0][1], n.Lines[0].Z[1][0] = 106, 106 }, "feeder: its surge impedances cannot exist together"},
		{"negative resistance", func(n *circuit.Network) { n.Lines[0].R.Own = -2 }, "feeder: the resistance is -2"},
		{"shared resistance no number", func(n *circuit.Network) { n.Lines[0].R.Mutual = math.NaN() }, "feeder: the shared resistance is NaN"},
		{"no delay", func(n *circuit.Network) { n.Lines[0].Delay = 0 }, "feeder: the delay is 0"},
		{"delay no number", func(n *circuit.Network) { n.Lines[0].Delay = math.NaN() }, "feeder: the delay is NaN"},
	})
}

func TestValidateRefusesLinearElements(t *testing.T) {
	refused(t, []refusal{
		{"resistor off the network", func(n *circuit.Network) { n.Resistors[0].B = 7 }, "load: there is no node 7"},
		{"no resistance", func(n *circuit.Network) { n.Resistors[0].Ohms = 0 }, "load: the resistance is 0"},
		{"resistance without end", func(n *circuit.Network) { n.Resistors[0].Ohms = math.Inf(1) }, "load: the resistance is +Inf"},
		{"capacitor off the network", func(n *circuit.Network) { n.Capacitors[0].A = 7 }, "filter: there is no node 7"},
		{"no capacitance", func(n *circuit.Network) { n.Capacitors[0].Farads = -1e-9 }, "filter: the capacitance is -1e-09"},
		{"charge no number", func(n *circuit.Network) { n.Capacitors[0].Charged = math.NaN() }, "filter: the voltage at the start is NaN"},
		{"source off the network", func(n *circuit.Network) { n.Sources[0].A = -3 }, "surge: there is no node -3"},
		{"source without resistance", func(n *circuit.Network) { n.Sources[0].Ohms = 0 }, "surge: the resistance is 0"},
		{"source without end", func(n *circuit.Network) { n.Sources[0].Volts = math.Inf(-1) }, "surge: the voltage is -Inf"},
		{"winding off the network", func(n *circuit.Network) { n.Windings[0].P.B = 8 }, "transformer: there is no node 8"},
		{"secondary off the network", func(n *circuit.Network) { n.Windings[0].S.A = 8 }, "transformer: there is no node 8"},
		{"no ratio", func(n *circuit.Network) { n.Windings[0].Ratio = 0 }, "transformer: the ratio is 0"},
		{"no leakage", func(n *circuit.Network) { n.Windings[0].Henries = 0 }, "transformer: the leakage inductance is 0"},
		{"negative winding resistance", func(n *circuit.Network) { n.Windings[0].Ohms = -1 }, "transformer: the resistance is -1"},
	})
}

func TestValidateRefusesCoils(t *testing.T) {
	refused(t, []refusal{
		{"no branches", func(n *circuit.Network) { n.Inductors[0] = circuit.Inductor{Name: "leads"} }, "leads: its matrix does not fit"},
		{"matrix too small", func(n *circuit.Network) { n.Inductors[0].Henries = []float64{1e-6} }, "leads: its matrix does not fit"},
		{"resistances missing", func(n *circuit.Network) { n.Inductors[0].Ohms = nil }, "leads: its matrix does not fit"},
		{"branch off the network", func(n *circuit.Network) { n.Inductors[0].Branches[1].B = 6 }, "leads: there is no node 6"},
		{"no inductance", func(n *circuit.Network) { n.Inductors[0].Henries[3] = 0 }, "leads: the inductance is 0"},
		{"negative resistance", func(n *circuit.Network) { n.Inductors[0].Ohms[1] = -1 }, "leads: the resistance is -1"},
		{"not symmetric", func(n *circuit.Network) { n.Inductors[0].Henries[1] = 0.5e-6 }, "leads: its inductances are not symmetric"},
		{"coupled to the full", func(n *circuit.Network) { n.Inductors[0].Henries[1], n.Inductors[0].Henries[2] = 2e-6, 2e-6 }, "leads: two branches are coupled by 1"},
		{"coupled beyond, turned over", func(n *circuit.Network) { n.Inductors[0].Henries[1], n.Inductors[0].Henries[2] = -3e-6, -3e-6 }, "leads: two branches are coupled by -1.5"},
		{"three that cannot be so", func(n *circuit.Network) { n.Inductors[0] = impossible() }, "leads: its inductances"},
		{"mutual no number", func(n *circuit.Network) {
			n.Inductors[0].Henries[1], n.Inductors[0].Henries[2] = math.NaN(), math.NaN()
		}, "leads: its inductances are not symmetric"},
	})
}

// impossible is three branches of which each pair could be, but which together
// would hold less than no energy: with 1 A there, there and back 2 (1.5 - 2.7) µJ.
func impossible() circuit.Inductor {
	return circuit.Inductor{
		Name: "leads", Branches: []circuit.Branch{{A: 1}, {A: 2}, {A: 3}}, Ohms: []float64{0, 0, 0},
		Henries: []float64{1e-6, 0.9e-6, 0.9e-6, 0.9e-6, 1e-6, -0.9e-6, 0.9e-6, -0.9e-6, 1e-6},
	}
}

func TestValidateRefusesVaristorsAndGaps(t *testing.T) {
	refused(t, []refusal{
		{"varistor off the network", func(n *circuit.Network) { n.Varistors[0].A = 5 }, "block: there is no node 5"},
		{"no curve", func(n *circuit.Network) { n.Varistors[0].Curve = nil }, "block: its curve has too few points"},
		{"one point", func(n *circuit.Network) {
			n.Varistors[0].Curve = &circuit.Curve{Volts: []float64{0}, Amps: []float64{0}}
		}, "block: its curve has too few points"},
		{"unlike lengths", func(n *circuit.Network) { n.Varistors[0].Curve.Amps = []float64{0, 1} }, "block: its curve has too few points"},
		{"not from the origin", func(n *circuit.Network) { n.Varistors[0].Curve.Amps[0] = 1e-6 }, "block: its curve does not begin at the origin"},
		{"current does not rise", func(n *circuit.Network) { n.Varistors[0].Curve.Amps[2] = 0.1 }, "block: its curve does not rise at 110 V"},
		{"voltage does not rise", func(n *circuit.Network) { n.Varistors[0].Curve.Volts[2] = 100 }, "block: its curve does not rise at 100 V"},
		{"a voltage no number", func(n *circuit.Network) { n.Varistors[0].Curve.Volts[1] = math.NaN() }, "block: its curve does not rise at NaN V"},
		{"end without end", func(n *circuit.Network) { n.Varistors[0].Curve.Amps[3] = math.Inf(1) }, "block: the end of its curve is +Inf"},
		{"gap off the network", func(n *circuit.Network) { n.Gaps[0].B = 5 }, "tube: there is no node 5"},
		{"no arc voltage", func(n *circuit.Network) { n.Gaps[0].Arc = 0 }, "tube: the arc voltage is 0"},
		{"no arc resistance", func(n *circuit.Network) { n.Gaps[0].Ohms = 0 }, "tube: the resistance of the arc is 0"},
		{"no holding current", func(n *circuit.Network) { n.Gaps[0].Hold = -1 }, "tube: the holding current is -1"},
		{"no resistance while open", func(n *circuit.Network) { n.Gaps[0].Off = 0 }, "tube: the resistance while open is 0"},
		{"sparks below its arc", func(n *circuit.Network) { n.Gaps[0].Sparkover = 20 }, "tube: its sparkover voltage is not above"},
		{"never sparks", func(n *circuit.Network) { n.Gaps[0].Sparkover = math.Inf(1) }, "tube: its sparkover voltage is not above"},
	})
}

func TestValidateDiodes(t *testing.T) {
	refused(t, []refusal{
		{"unknown node", func(n *circuit.Network) { n.Diodes[0].B = 9 }, "valve: there is no node 9"},
		{"nothing forth", func(n *circuit.Network) { n.Diodes[0].On = 0 }, "valve: the resistance forth is 0"},
		{"no bound back", func(n *circuit.Network) { n.Diodes[0].Off = math.Inf(1) }, "valve: the resistance back is +Inf"},
		{"no number", func(n *circuit.Network) { n.Diodes[0].Off = math.NaN() }, "valve: the resistance back is NaN"},
		{"the wrong way", func(n *circuit.Network) { n.Diodes[0].On = 2e6 }, "valve: its resistance back is not above that forth"},
	})
}

// The first thing that is wrong is told, in the order of the network.
func TestValidateTellsTheFirst(t *testing.T) {
	refused(t, []refusal{{"two", func(n *circuit.Network) { n.Resistors[0].Ohms, n.Gaps[0].Arc = 0, 0 }, "load: the resistance is 0"}})
}

// n like branches of 1 µH, each two coupled by k, can exist where k is above -1/(n-1)
// (the least eigenvalue of such a matrix is 1 + (n-1) k), and those that some other
// arrangement of wires gives can.
func TestCoilsThatCanExist(t *testing.T) {
	with := func(n int, mutual func(i, j int) float64) error {
		inductor := circuit.Inductor{Name: "leads", Henries: make([]float64, n*n), Ohms: make([]float64, n)}
		network := circuit.Network{}
		for i := range n {
			inductor.Branches = append(inductor.Branches, circuit.Branch{A: network.AddNode("n")})
			for j := range n {
				inductor.Henries[i*n+j] = 1e-6 * mutual(i, j)
			}
		}
		network.Inductors = []circuit.Inductor{inductor}
		return network.Validate()
	}
	for n := 2; n <= 4; n++ {
		for _, off := range []float64{-0.05, 0.05} {
			k := -1/float64(n-1) + off
			err := with(n, func(i, j int) float64 {
				if i == j {
					return 1
				}
				return k
			})
			if (err == nil) != (off > 0) {
				t.Errorf("%d branches coupled by %g: got %v", n, k, err)
			}
		}
	}
	// m mᵀ of any m is the energy of currents, and so can exist.
	rng := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		const n = 4
		var m [n][n]float64
		for i := range n {
			for j := range n {
				m[i][j] = rng.Float64() - 0.5
			}
			m[i][i]++
		}
		if err := with(n, func(i, j int) float64 {
			sum := 0.0
			for k := range n {
				sum += m[i][k] * m[j][k]
			}
			return sum
		}); err != nil {
			t.Errorf("%v: got %v", m, err)
		}
	}
}

// Which kind each two conductors of a bus are.
func TestKindOfPairs(t *testing.T) {
	for letters, want := range map[string]string{"ABN": "AB L-L, AG L-G, AN L-N, BG L-G, BN L-N, NG N-G", "AN": "AG L-G, AN L-N, NG N-G", "AB": "AB L-L, AG L-G, BG L-G", "NA": "AG L-G, NA L-N, NG N-G"} {
		bus := circuit.Bus{}
		for i, letter := range []byte(letters) {
			bus.Conductors = append(bus.Conductors, circuit.Conductor{Letter: letter, Node: circuit.Node(i + 1)})
		}
		var got []string
		for _, pair := range circuit.Pairs(len(letters)) {
			got = append(got, bus.PairName(pair)+" "+bus.Kind(pair).String())
		}
		slices.Sort(got)
		if strings.Join(got, ", ") != want {
			t.Errorf("%s: got %q, want %q", letters, got, want)
		}
	}
}
