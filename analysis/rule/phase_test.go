package rule

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

func TestPhases(t *testing.T) {
	const ln, lg = diagram.LineNeutral, diagram.LineEarth
	twoLines := diagram.System{Wiring: diagram.Single, Voltage: 208, Earthing: diagram.Solid}
	tests := []struct {
		name string
		bus  diagram.System
		p    diagram.Protector
		want []string
	}{
		{"all there", wye208, usual(wye208), nil},
		{"bus not known", diagram.System{}, usual(split240), nil},
		{"no system stated", wye208, usual(wye208, madeFor(diagram.System{})), nil},
		{"split phase on three phases", wye208, usual(split240), []string{"error: SPD on the bus is made for 2 lines, and the bus has 3"}},
		{"two lines of three", wye208, usual(wye208, madeFor(twoLines)), []string{"error: SPD on the bus is made for 2 lines, and the bus has 3"}},
		{"one line on split phase", split240, usual(single120), []string{"error: SPD on the bus is made for 1 line, and the bus has 2"}},
		{"wiring alone stated", wye208, usual(wye208, madeFor(diagram.System{Wiring: diagram.Split})), []string{"error: SPD on the bus is made for 2 lines, and the bus has 3"}},
		{"three phases on split phase", split240, usual(wye208), []string{"note: SPD on the bus is made for 3 lines, and there are 2: 1 stays unused"}},
		{"three phases on one line", with(single120, 120), usual(wye208), []string{"note: SPD on the bus is made for 3 lines, and there is 1: 2 stay unused"}},
		{"no terminal for the neutral", wye480, usual(delta480), []string{"warning: SPD on the bus is made for 480 delta, without a neutral, and the bus has one"}},
		{"PEN, and the neutral is apart", tns400, usual(tns400, madeFor(tnc400)),
			[]string{"warning: SPD on the bus is made for 400/230 TN-C, with neutral and earth in one, and the bus has them apart"}},
		{"lines to PEN", tnc400, usual(it400, rated(275, lg), madeFor(earthed(it400, diagram.TNC))), nil},
		{"made for IT, lines to PEN", tnc400, usual(it400), nil},
		{"neutral leads nowhere", hrg480, usual(wye480, rated(550, lg)), []string{"warning: SPD on the bus has L-N and N-G, and the bus has no neutral to connect to"}},
		{"and nothing else is connected", it400, usual(tns400, only(ln, diagram.NeutralEarth)),
			[]string{"error: SPD on the bus has L-N and N-G, and the bus has no neutral to connect to"}},
		{"made for the high leg", highLeg, usual(highLeg), nil},
		{"made for 120 V on every line", highLeg, usual(wye208),
			[]string{"error: SPD on the bus does not stand line B of the high-leg delta in L-N and L-G"}},
		{"the same by its system alone", highLeg, usual(with(wye208, 240), rated(0, ln, lg)),
			[]string{"error: SPD on the bus does not stand line B of the high-leg delta in L-N and L-G"}},
		{"the rating of the ordinary lines stated", highLeg, usual(highLeg, rated(150, ln)),
			[]string{"warning: SPD on the bus does not stand line B of the high-leg delta in L-N"}},
		{"just below the high line", highLeg, usual(highLeg, rated(207, ln)), []string{"warning: SPD on the bus does not stand line B of the high-leg delta in L-N"}},
		{"just above it", highLeg, usual(highLeg, rated(208, ln)), nil}, // √3 × 120 V = 207.8 V
		{"the earthing tells of L-G", earthed(highLeg, ""), usual(highLeg, rated(210, lg)), nil},
		{"a delta has no line to neutral", highLeg, usual(with(delta480, 240)), []string{"warning: SPD on the bus is made for 240 delta, without a neutral, and the bus has one"}},
	}
	for _, test := range tests {
		found := Fits(test.p, test.bus, diagram.Codes{})
		complete(t, test.name, found)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectPhases)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// The high line is named with its voltage: 120 V times √3.
func TestHighLegSaysItsVoltage(t *testing.T) {
	for _, f := range Fits(usual(wye208), highLeg, diagram.Codes{}) {
		if f.Subject != analysis.SubjectPhases {
			continue
		}
		last := f.Working[len(f.Working)-1]
		if !strings.Contains(f.Why, "208\u00a0V") || last.Result < 207.84 || last.Result > 207.85 {
			t.Errorf("got %q with %+v, want 208 V", f.Why, last)
		}
		return
	}
	t.Error("got no finding on the high line")
}

// On a load only the conductors that it is connected to count.
func TestPhasesOfLoads(t *testing.T) {
	for _, test := range []struct {
		name       string
		connection diagram.Connection
		p          diagram.Protector
		want       []string
	}{
		{"one line to one line", diagram.ToNeutral, usual(single120), nil},
		{"one line to all", "", usual(single120), []string{"error: SPD on Load is made for 1 line, and the bus has 3"}},
		{"one line to two", diagram.BetweenLines, usual(single120), []string{"error: SPD on Load is made for 1 line, and the bus has 2"}},
		{"three wires want no neutral", diagram.ThreeWire, usual(wye208, only(diagram.LineEarth, diagram.LineLine), madeFor(diagram.System{Wiring: diagram.Wye, Voltage: 208, Earthing: diagram.Solid})), nil},
		{"four do", diagram.ThreeWireStar, usual(wye208, only(diagram.LineEarth, diagram.LineLine), madeFor(diagram.System{Wiring: diagram.Wye, Voltage: 208, Earthing: diagram.Solid})),
			[]string{"warning: SPD on Load is made for 208 3-wire, without a neutral, and the bus has one"}},
	} {
		doc := building(t, wye208, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load, Name: "Load", Load: diagram.LoadData{Connection: test.connection}})
			tx.SetFeeder(feeder("branch", "panel", "load"))
			placed(tx, test.p, "load")
		})
		if diff := cmp.Diff(append([]string{}, test.want...), told(checkAll(doc), analysis.SubjectPhases)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// Where other protectors may have the lines that one lacks, it is not wrong for
// sure.
func TestLinesOfOthers(t *testing.T) {
	for _, test := range []struct {
		name   string
		others []diagram.System
		want   analysis.Severity
	}{
		{"alone", nil, analysis.Error},
		{"one more line of two", []diagram.System{single120}, analysis.Error},
		{"both", []diagram.System{single120, single120}, analysis.Warning},
		{"two lines in one", []diagram.System{split240}, analysis.Warning},
		{"one with all lines does not count with those", []diagram.System{wye208}, analysis.Error},
	} {
		doc := building(t, wye208, func(tx *diagram.Tx) {
			placed(tx, usual(single120), "panel")
			for _, system := range test.others {
				other := usual(system)
				other.ID = tx.NewProtectorID()
				placed(tx, other, "panel")
			}
		})
		var got []analysis.Severity
		for _, f := range checkAll(doc) {
			if f.Subject == analysis.SubjectPhases && f.Records[0] == "spd" {
				got = append(got, f.Severity)
			}
		}
		if diff := cmp.Diff([]analysis.Severity{test.want}, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}
