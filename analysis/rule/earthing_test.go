package rule

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

func TestEarthing(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	direct := "warning: SPD on the bus connects the lines straight to earth on a TT system, with no residual-current device drawn ahead of it"
	tests := []struct {
		name  string
		bus   diagram.System
		p     diagram.Protector
		codes diagram.Codes
		want  []string
	}{
		{name: "solid, made for it", bus: wye480, p: usual(wye480)},
		{name: "solid, made for ungrounded", bus: wye480, p: usual(delta480)},
		{name: "bus not known", p: usual(wye480)},
		{name: "ungrounded, made for it", bus: delta480, p: usual(delta480)},
		{name: "ungrounded, made for solid", bus: delta480, p: usual(wye480),
			want: []string{"error: SPD on the bus: MCOV too low for an unearthed 480\u00a0V delta"}},
		{name: "the same by its system alone", bus: delta480, p: usual(wye480, rated(0, ln, lg, ng, ll)),
			want: []string{"error: SPD on the bus is not rated for an unearthed 480\u00a0V delta"}},
		{name: "ungrounded, neither rating nor system", bus: delta480, p: usual(wye480, rated(0, lg), madeFor(diagram.System{}))},
		{name: "the voltage between lines is enough", bus: delta480, p: usual(delta480, rated(480, lg))},
		{name: "a volt less is not", bus: delta480, p: usual(delta480, rated(479, lg)),
			want: []string{"error: SPD on the bus: MCOV too low for an unearthed 480\u00a0V delta"}},
		{name: "nothing to earth, listed", bus: delta480, p: usual(delta480, only(ll))},
		{name: "corner, made for solid", bus: corner480, p: usual(wye480),
			want: []string{"error: SPD on the bus: MCOV too low for a corner-earthed 480\u00a0V delta"}},
		{name: "impedance, made for solid", bus: hrg480, p: usual(wye480),
			want: []string{"error: SPD on the bus: MCOV too low for an impedance-earthed 480\u00a0V wye"}},
		{name: "impedance, rated for it but not listed", bus: hrg480, p: usual(wye480, only(lg, ll), rated(550, lg)),
			want: []string{"warning: SPD on the bus is made for 480Y/277 with an earthed neutral, and the bus has 480 3-wire HRG"}},
		{name: "impedance, rated for it, listing not told", bus: hrg480, p: usual(hrg480, madeFor(earthed(hrg480, "")))},
		{name: "impedance, made for another voltage besides: told once", bus: hrg480, p: usual(with(delta480, 600), levelOf(2500, lg, ll))},
		{name: "impedance, made for ungrounded", bus: hrg480, p: usual(delta480),
			want: []string{"note: SPD on the bus is made for 480 delta, and the bus has 480 3-wire HRG"}},
		{name: "ungrounded, made for a delta said to be solid", bus: delta480, p: usual(delta480, madeFor(earthed(delta480, diagram.Solid)))},
		{name: "a delta said to be solid, made for a wye", bus: earthed(delta480, diagram.Solid), p: usual(wye480),
			want: []string{"error: SPD on the bus: MCOV too low for 480 delta"}},
		{name: "earthing not known", bus: earthed(wye480, ""), p: usual(wye480),
			want: []string{"warning: The earthing at the bus is not stated, and SPD is rated only for a solidly earthed neutral"}},
		{name: "earthing not known, and stands it", bus: earthed(wye480, ""), p: usual(wye480, rated(550, lg))},
		{name: "TN-S, 3+1", bus: tns400, p: usual(tns400, only(ln, ng), gapped)},
		{name: "TN-S, 4+0", bus: tns400, p: usual(tns400, only(lg, ng))},
		{name: "TN-S, to neutral alone", bus: tns400, p: usual(tns400, only(ln)), want: []string{"warning: SPD on the bus has no path from the lines to earth"}},
		{name: "the same at an outlet", bus: tns400, p: usual(tns400, only(ln), func(p *diagram.Protector) { p.Type = diagram.ClassIII })},
		{name: "the same by other rules", bus: wye208, p: usual(wye208, only(ln))},
		{name: "TN-C, from the lines to PEN", bus: tnc400, p: usual(tnc400, only(ln))},
		{name: "TN-C, 4+0", bus: tnc400, p: straight(tnc400),
			want: []string{"warning: Mode N-G of SPD on the bus cannot be connected: neutral and earth are one conductor there"}},
		{name: "TN-C, neutral to earth alone: told once, with what to do", bus: tnc400, p: straight(tnc400, only(ng)),
			want: []string{"warning: Mode N-G of SPD on the bus cannot be connected: neutral and earth are one conductor there"}},
		{name: "TT, straight to earth", bus: tt400, p: straight(tt400), want: []string{direct}},
		{name: "TT, 4+0 without the lines to neutral", bus: tt400, p: usual(tns400, only(lg, ng)), want: []string{direct}},
		{name: "TT, 3+1", bus: tt400, p: usual(tt400)},
		{name: "TT, by the rules of North America", bus: tt400, p: straight(tt400), codes: diagram.Codes{Practice: diagram.NECPractice}},
		{name: "IT, made for TN", bus: it400, p: usual(tns400, only(lg)),
			want: []string{"error: SPD on the bus: Uc too low for 400 3-wire IT"}},
		{name: "IT, made for TN but rated for it", bus: it400, p: usual(tns400, only(lg), rated(440, lg))},
		{name: "IT with neutral, 3+1", bus: itn400, p: usual(itn400, only(ln, ng), gapped)},
		{name: "ungrounded by the rules of IEC", bus: delta480, p: usual(wye480), codes: diagram.Codes{Practice: diagram.IECPractice},
			want: []string{"error: SPD on the bus: MCOV too low for an unearthed 480\u00a0V delta"}},
	}
	for _, test := range tests {
		found := Fits(test.p, test.bus, test.codes)
		complete(t, test.name, found)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectEarthing)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// By each edition and practice the source is the one that has the rule, and the
// words are those of the earthing.
func TestEarthingTexts(t *testing.T) {
	for _, test := range []struct {
		name              string
		bus               diagram.System
		codes             diagram.Codes
		source, why, asks string
	}{
		{"2023", delta480, diagram.Codes{}, "NFPA 70:2023 section 242.12 (check your edition)", "when one line touches earth", "listed for this earthing"},
		{"2020", delta480, diagram.Codes{NEC: diagram.NEC2020}, "NFPA 70:2020 section 242.6 (check your edition)", "no breaker opens", "480\u00a0V L-G"},
		{"2017", corner480, diagram.Codes{NEC: diagram.NEC2017}, "NFPA 70:2017 section 285.3 (check your edition)", "one line is earthed here", "keep it switched off"},
		{"IEC", delta480, diagram.Codes{Practice: diagram.IECPractice}, "IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.4.3 (from memory; check your edition)", "480\u00a0V to it", "480\u00a0V L-G is"},
		{"not known", earthed(wye480, ""), diagram.Codes{}, "NFPA 70:2023 section 242.12 (check your edition)", "taken as unearthed", "state the earthing"},
	} {
		found := Fits(usual(wye480), test.bus, test.codes)
		at := 0
		for at < len(found) && found[at].Subject != analysis.SubjectEarthing {
			at++
		}
		if at == len(found) {
			t.Fatalf("%s: no finding", test.name)
		}
		f := found[at]
		if f.Source != test.source || !strings.Contains(f.Why, test.why) || !strings.Contains(f.Remedy, test.asks) {
			t.Errorf("%s: got %q, %q, %q; want %q, %q, %q", test.name, f.Source, f.Why, f.Remedy, test.source, test.why, test.asks)
		}
		if f.Mend.IsThere() != (test.bus.Earthing != "" && test.codes.Practice != diagram.IECPractice) {
			t.Errorf("%s: got the change %q; one that is not known is to be stated first, and by IEC none is usual here", test.name, f.Mend.Label)
		}
	}
}

// A residual-current device counts anywhere between the board and the head of
// its zone, and nowhere else.
func TestResidualAbove(t *testing.T) {
	residual := func(tx *diagram.Tx, id diagram.ID) {
		f, _ := tx.Feeder(id)
		f.Switch = diagram.SwitchData{Kind: diagram.Breaker, Residual: true}
		tx.SetFeeder(f)
	}
	for _, test := range []struct {
		name string
		draw func(*diagram.Tx)
		want bool // whether it is told that the protector leads straight to earth
	}{
		{"none", func(*diagram.Tx) {}, true},
		{"on its feeder", func(tx *diagram.Tx) { residual(tx, "branch") }, false},
		{"farther up", func(tx *diagram.Tx) { residual(tx, "feeder") }, false},
		{"below", func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "load", Kind: diagram.Load})
			tx.SetFeeder(feeder("last", "board", "load"))
			residual(tx, "last")
		}, true},
		{"beyond a transformer", func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "transformer", Kind: diagram.Transformer, System: tt400, Transformer: diagram.TransformerData{Primary: tt400}})
			up, down := feeder("up", "panel", "transformer"), feeder("branch", "transformer", "board")
			up.To.Port, down.From.Port = diagram.Primary, diagram.Secondary
			tx.SetFeeder(up)
			tx.SetFeeder(down)
			residual(tx, "up")
		}, true},
	} {
		doc := building(t, tt400, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel})
			tx.SetFeeder(feeder("branch", "panel", "board"))
			placed(tx, straight(tt400), "board")
			test.draw(tx)
		})
		got := told(checkAll(doc), analysis.SubjectEarthing)
		if direct := len(got) == 1 && strings.Contains(got[0], "straight to earth"); direct != test.want || len(got) > 1 {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}

func gapToEarth(p diagram.Protector) bool {
	gap := p.Modes[diagram.NeutralEarth]
	return p.Modes[diagram.LineNeutral].Connected && gap.Connected && gap.Switching && !p.Modes[diagram.LineEarth].Connected
}

// Another protector, connected through a gap, takes the finding away.
func TestThroughGap(t *testing.T) {
	doc := building(t, tt400, func(tx *diagram.Tx) { placed(tx, straight(tt400), "panel") })
	for _, f := range checkAll(doc) {
		if f.Subject == analysis.SubjectEarthing {
			if _, err := doc.Edit(f.Mend.Apply); err != nil {
				t.Fatal(err)
			}
		}
	}
	p, _ := doc.Protector("spd")
	if !gapToEarth(p) {
		t.Errorf("got %+v, want each line to the neutral and that through a gap to earth", p.Modes)
	}
	if left := told(checkAll(doc), analysis.SubjectEarthing); len(left) > 0 {
		t.Errorf("got %v after it", left)
	}
}

// At the bond the mode between neutral and earth is idle, and the lines to
// neutral lead to earth.
func TestAtTheBond(t *testing.T) {
	for _, test := range []struct {
		name   string
		supply diagram.System
		p      diagram.Protector
		bonded bool
		want   []string
	}{
		{"bonded", wye208, usual(wye208), true, []string{"note: Mode N-G of SPD on Board does nothing: neutral and earth are bonded there"}},
		{"not bonded", wye208, usual(wye208), false, nil},
		{"bonded, without the mode", wye208, usual(wye208, only(diagram.LineNeutral)), true, nil},
		{"lines to neutral, bonded", tns400, usual(tns400, only(diagram.LineNeutral)), true, nil},
		{"lines to neutral, not bonded", tns400, usual(tns400, only(diagram.LineNeutral)), false, []string{"warning: SPD on Board has no path from the lines to earth"}},
		{"lines to PEN, bonded", tns400, usual(tns400, only(diagram.LineEarth), madeFor(tnc400)), true, nil},
		{"lines to PEN, a TN-C board", tnc400, usual(tns400, only(diagram.LineEarth), madeFor(tnc400)), false, nil},
	} {
		doc := building(t, test.supply, func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "board", Kind: diagram.Panel, Name: "Board", Board: diagram.BoardData{Bonded: test.bonded}})
			tx.SetFeeder(feeder("branch", "supply", "board"))
			placed(tx, test.p, "board")
		})
		var got []analysis.Finding
		for _, f := range checkAll(doc) {
			if f.Records[0] == "spd" {
				got = append(got, f)
			}
		}
		if diff := cmp.Diff(append([]string{}, test.want...), told(got, analysis.SubjectEarthing)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
		if phases := told(got, analysis.SubjectPhases); len(phases) > 0 {
			t.Errorf("%s: got %v", test.name, phases)
		}
	}
}

// What one protector on a bus leads to earth the other need not.
func TestEarthElsewhere(t *testing.T) {
	doc := building(t, tns400, func(tx *diagram.Tx) {
		placed(tx, usual(tns400, only(diagram.LineNeutral)), "panel")
		other := usual(tns400)
		other.ID = "other"
		placed(tx, other, "panel")
	})
	if got := told(checkAll(doc), analysis.SubjectEarthing); len(got) > 0 {
		t.Errorf("got %v, want nothing", got)
	}
}

// Where the earthing is not stated, a bond proves it, at the board or above.
func TestBondProvesEarthing(t *testing.T) {
	unstated := earthed(wye480, "")
	for _, test := range []struct {
		name        string
		supply      diagram.System
		panel, sub  bool // bonded
		codes       diagram.Codes
		onSub       bool
		wantEarthed bool
	}{
		{name: "no bond", supply: unstated},
		{name: "no bond, by IEC", supply: unstated, codes: diagram.Codes{Practice: diagram.IECPractice}},
		{name: "at the board", supply: unstated, panel: true, wantEarthed: true},
		{name: "at the board, by IEC", supply: unstated, panel: true, codes: diagram.Codes{Practice: diagram.IECPractice}, wantEarthed: true},
		{name: "at the board above", supply: unstated, panel: true, onSub: true, wantEarthed: true},
		{name: "at the board below", supply: unstated, sub: true},
		{name: "without a neutral", supply: earthed(hrg480, ""), panel: true},
		{name: "stated otherwise", supply: earthed(wye480, diagram.Impedance), panel: true},
	} {
		doc := building(t, test.supply, func(tx *diagram.Tx) {
			info := tx.Document().Info()
			info.Codes = test.codes
			tx.SetInfo(info)
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Name: "Panel", Board: diagram.BoardData{Bonded: test.panel}})
			tx.SetPart(diagram.Part{ID: "sub", Kind: diagram.Panel, Name: "Panel", Board: diagram.BoardData{Bonded: test.sub}})
			tx.SetFeeder(feeder("branch", "panel", "sub"))
			on := diagram.ID("panel")
			if test.onSub {
				on = "sub"
			}
			placed(tx, usual(wye480), on)
		})
		doubt := false
		for _, f := range checkAll(doc) {
			doubt = doubt || f.Subject == analysis.SubjectEarthing && f.Records[0] == "spd" && f.Severity > analysis.Remark
		}
		if doubt == test.wantEarthed {
			t.Errorf("%s: got a finding on the earthing %v, want %v", test.name, doubt, !test.wantEarthed)
		}
	}
}
