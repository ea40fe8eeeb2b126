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
			[]string{"error: SPD on the bus: MCOV too low for line B of the high-leg delta in L-N and L-G"}},
		{"the same by its system alone", highLeg, usual(with(wye208, 240), rated(0, ln, lg)),
			[]string{"error: SPD on the bus: MCOV too low for line B of the high-leg delta in L-N and L-G"}},
		{"the rating of the ordinary lines stated", highLeg, usual(highLeg, rated(150, ln)),
			[]string{"warning: SPD on the bus: MCOV too low for line B of the high-leg delta in L-N"}},
		{"just below the high line", highLeg, usual(highLeg, rated(207, ln)), []string{"warning: SPD on the bus: MCOV too low for line B of the high-leg delta in L-N"}},
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
		{"one with all lines", []diagram.System{wye208}, analysis.Remark},
		{"one with all lines of another voltage", []diagram.System{with(wye208, 480)}, analysis.Error},
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

// Once one of two that lack a line has all of them, the other is no error.
func TestMendOfOneOfTwo(t *testing.T) {
	doc := building(t, split240, func(tx *diagram.Tx) {
		for _, id := range []diagram.ID{"spd", "other"} {
			p := usual(single120)
			p.ID = id
			placed(tx, p, "panel")
		}
	})
	for _, f := range checkAll(doc) {
		if f.Subject == analysis.SubjectPhases && f.Records[0] == "spd" {
			if _, err := doc.Edit(f.Mend.Apply); err != nil {
				t.Fatal(err)
			}
		}
	}
	want := []string{"note: SPD on Panel is made for 1 line, and the bus has 2"}
	if diff := cmp.Diff(want, told(checkAll(doc), analysis.SubjectPhases)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

// A load for 120 V of a high-leg delta is not on the high line; of another one it
// is not known.
func TestHighLegLoads(t *testing.T) {
	stands := func(severity string) []string {
		return []string{severity + ": SPD on Load: MCOV too low for line B of the high-leg delta in L-N and L-G"}
	}
	for _, test := range []struct {
		name string
		load diagram.LoadData
		p    diagram.Protector
		want []string
	}{
		{"120 V to the neutral", diagram.LoadData{Connection: diagram.ToNeutral, Voltage: 120}, usual(single120), nil},
		{"no voltage stated", diagram.LoadData{Connection: diagram.ToNeutral}, usual(single120), stands("warning")},
		{"208 V to the neutral", diagram.LoadData{Connection: diagram.ToNeutral, Voltage: 208}, usual(single120), stands("error")},
		{"between lines", diagram.LoadData{Connection: diagram.BetweenLines, Voltage: 240}, usual(split240), stands("warning")},
		{"between lines, stands it", diagram.LoadData{Connection: diagram.BetweenLines}, usual(split240, rated(320, diagram.LineNeutral, diagram.LineEarth)), nil},
		{"no connection stated", diagram.LoadData{}, usual(with(wye208, 240), rated(150, diagram.LineNeutral, diagram.LineEarth)), stands("warning")},
		{"three wires", diagram.LoadData{Connection: diagram.ThreeWire}, usual(with(wye208, 240), rated(150, diagram.LineNeutral, diagram.LineEarth)), stands("error")},
	} {
		doc := building(t, highLeg, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load, Name: "Load", Load: test.load})
			tx.SetFeeder(feeder("branch", "panel", "load"))
			placed(tx, test.p, "load")
		})
		found := checkAll(doc)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectPhases)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
		if more := told(found, analysis.SubjectContinuous); len(more) > 0 {
			t.Errorf("%s: got %v", test.name, more)
		}
	}
}

// A breaker with as many poles as the protector has lines tells that the board
// may have no more; a statement of the board settles it.
func TestFewerLinesByTheBreaker(t *testing.T) {
	for _, test := range []struct {
		name   string
		kind   diagram.Kind
		poles  int
		stated diagram.System
		p      diagram.Protector
		want   []string
	}{
		{"two poles, two lines", diagram.Panel, 2, diagram.System{}, usual(split240), []string{"warning: SPD on Board is made for 2 lines, and the bus has 3"}},
		{"one pole at a junction", diagram.Junction, 1, diagram.System{}, usual(single120), []string{"warning: SPD on Board is made for 1 line, and the bus has 3"}},
		{"three poles", diagram.Panel, 3, diagram.System{}, usual(split240), []string{"error: SPD on Board is made for 2 lines, and the bus has 3"}},
		{"poles not known", diagram.Panel, 0, diagram.System{}, usual(split240), []string{"error: SPD on Board is made for 2 lines, and the bus has 3"}},
		{"stated with two lines", diagram.Panel, 2, twoOf208, usual(split240), nil},
		{"stated with three", diagram.Panel, 2, wye208, usual(split240), []string{"error: SPD on Board is made for 2 lines, and the bus has 3"}},
	} {
		doc := building(t, wye208, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "board", Kind: test.kind, Name: "Board", System: test.stated})
			branch := feeder("branch", "panel", "board")
			branch.Switch = diagram.SwitchData{Kind: diagram.Breaker, Poles: test.poles}
			tx.SetFeeder(branch)
			placed(tx, test.p, "board")
		})
		found := checkAll(doc)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectPhases)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
		if more := told(found, analysis.SubjectVoltage); len(more) > 0 {
			t.Errorf("%s: got %v", test.name, more)
		}
	}
}

// Two lines of a wye are a system of their own: what is made for the three, for
// 120/240 V or for one line is told from what is made for them.
func TestTwoLinesOfAWye(t *testing.T) {
	for _, test := range []struct {
		name string
		bus  diagram.System
		p    diagram.Protector
		want []string
	}{
		{"its own", twoOf208, usual(twoOf208), nil},
		{"120/240 V", twoOf208, usual(split240), nil},
		{"two lines of a wye on 120/240 V", split240, usual(twoOf208, rated(300, diagram.LineLine)), nil},
		{"too low between lines", split240, usual(twoOf208, rated(230, diagram.LineLine)), []string{"error, continuous voltage: SPD on the bus: MCOV too low for 120/240 in L-L"}},
		{"three lines", twoOf208, usual(wye208), []string{"note, phases: SPD on the bus is made for 3 lines, and there are 2: 1 stays unused"}},
		{"one line", twoOf208, usual(single120), []string{"error, phases: SPD on the bus is made for 1 line, and the bus has 2"}},
		{"two of 480 V", with(twoOf208, 480), usual(split240), []string{"error, voltage: SPD on the bus is made for 120/240, and the bus has 480/277 2-line"}},
		{"a line and neutral between two lines without one", twoLines240, usual(diagram.System{Wiring: diagram.Single, Voltage: 240, Neutral: true, Earthing: diagram.Solid}, levelOf(700, diagram.LineEarth, diagram.NeutralEarth)), nil},
	} {
		var got []string
		for _, f := range Fits(test.p, test.bus, diagram.Codes{}) {
			got = append(got, f.Severity.String()+", "+f.Subject+": "+f.What)
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// For a load another protector has the lines and the neutral that its
// connection takes, so that none stay unused.
func TestUsualForALoad(t *testing.T) {
	for _, test := range []struct {
		name string
		bus  diagram.System
		load diagram.LoadData
		want diagram.System // zero: none is offered
	}{
		{"to the neutral", wye208, diagram.LoadData{Connection: diagram.ToNeutral}, single120},
		{"between lines", wye208, diagram.LoadData{Connection: diagram.BetweenLines},
			twoOf208}, // of the library, with a terminal for the neutral that is not used
		{"between lines of a delta", delta480, diagram.LoadData{Connection: diagram.BetweenLines},
			diagram.System{Wiring: diagram.Single, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}},
		{"to the neutral of a high leg, 120 V", highLeg, diagram.LoadData{Connection: diagram.ToNeutral, Voltage: 120}, single120},
		{"to the neutral of a high leg", highLeg, diagram.LoadData{Connection: diagram.ToNeutral}, diagram.System{}},
		{"to the neutral of IT", itn400, diagram.LoadData{Connection: diagram.ToNeutral},
			diagram.System{Wiring: diagram.Single, Voltage: 230, Neutral: true, Earthing: diagram.TT, Frequency: 50}}, // of the library: a gap to earth stands both
		{"between lines of TT", tt400, diagram.LoadData{Connection: diagram.BetweenLines}, diagram.System{}},
	} {
		doc := building(t, test.bus, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load, Name: "Load", Load: test.load})
			tx.SetFeeder(feeder("branch", "panel", "load"))
			placed(tx, usual(test.bus), "load")
		})
		for _, f := range checkAll(doc) {
			if f.Subject != analysis.SubjectPhases {
				continue
			}
			if f.Mend.IsThere() != test.want.Known() {
				t.Errorf("%s: got the change %q for %s", test.name, f.Mend.Label, f.What)
				continue
			}
			if f.Mend.IsThere() {
				if _, err := doc.Edit(f.Mend.Apply); err != nil {
					t.Fatal(err)
				}
			}
		}
		if p, _ := doc.Protector("spd"); test.want.Known() && p.System != test.want {
			t.Errorf("%s: got one for %+v, want %+v", test.name, p.System, test.want)
		}
		var left []string
		for _, f := range checkAll(doc) {
			if f.Records[0] == "spd" && f.Subject != analysis.SubjectPlace && f.Subject != analysis.SubjectFault { // neither breaker nor fault current is stated
				left = append(left, f.What)
			}
		}
		if test.want.Known() && len(left) > 0 {
			t.Errorf("%s: got %q after it", test.name, left)
		}
	}
}
