package rule_test

import (
	"math"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

const inch = 0.0254 // m

// leads sets the lengths of all leads in metres, and levels of 1200 V.
func leads(phase, neutral, earth float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) {
		p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = phase, neutral, earth
		for mode := range p.Modes {
			p.Modes[mode].Level = 1200
		}
	}
}

// inches sets all leads to one length.
func inches(n float64) func(*diagram.Protector) { return leads(n*inch, n*inch, n*inch) }

// twisted lays the leads together.
func twisted(p *diagram.Protector) { p.Leads.Run = diagram.Twisted }

// separate lays them apart.
func separate(p *diagram.Protector) { p.Leads.Run = diagram.Separate }

// A VPR of 1200 V and 25 V per inch beyond six: 4.8 in more are a tenth, 24 in
// more are half.
func TestLeadsBeyondVPR(t *testing.T) {
	long := func(severity, lengths string) []string {
		return []string{severity + ": The leads of SPD on main are " + lengths + " long, and its VPR includes 6\u00a0in"}
	}
	unrated := func(p *diagram.Protector) { p.Leads.Phase.Length, p.Leads.Earth.Length = 30*inch, 10*inch }
	up := func(p *diagram.Protector) { p.Rating = diagram.Up }
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"on the bus itself", served(t).attach("main", inches(0)), nil},
		{"six inches", served(t).attach("main", inches(6)), nil},
		{"a little under a tenth", served(t).attach("main", inches(10.7)), nil},
		{"a little over a tenth", served(t).attach("main", inches(10.9)), long("note", "10.9\u00a0in")},
		{"a little under half", served(t).attach("main", twisted, inches(29.9)), nil},
		{"a little under half, apart", served(t).attach("main", leads(47.8*inch, 12*inch, 12*inch)), long("note", "47.8\u00a0in and 12\u00a0in")},
		{"half, apart", served(t).attach("main", leads(48*inch, 12*inch, 12*inch)), long("warning", "48\u00a0in and 12\u00a0in")},
		{"no rating", served(t).attach("main", unrated), nil},
		{"rated by Up", served(t).attach("main", leads(30*inch, 10*inch, 10*inch), up), nil},
	})
	if got, want := served(t).attach("main", inches(12)).one(analysis.SubjectLeads).Why, "they add about 150\u00a0V to its 1\u00a0200\u00a0V, unless they are twisted or tied"; got != want {
		t.Errorf("how they run not stated: got %q, want %q", got, want)
	}
	f := served(t).attach("main", separate, leads(48*inch, 12*inch, 12*inch)).one(analysis.SubjectLeads)
	checkTexts(t, f, "The leads of SPD on main are 48\u00a0in and 12\u00a0in long, and its VPR includes 6\u00a0in",
		"they add about 600\u00a0V to its 1\u00a0200\u00a0V", "shorten them",
		"25 V per inch beyond six inches, common practice, no source; six inches: UL 1449")
	if got, want := f.Working[0].Numbers, "25\u00a0V/in × max(0, (48\u00a0in + 12\u00a0in)/2 − 6\u00a0in)"; got != want {
		t.Errorf("numbers: got %s, want %s", got, want)
	}
	if got := f.Working[0].Result; math.Abs(got-600) > 1e-9 {
		t.Errorf("working: got %g V, want 600", got)
	}
}

// IEC 60364-5-53 clause 534: 0.5 m live and earth side together, at most 1 m.
func TestLeadsByIEC(t *testing.T) {
	long := func(severity, total, bound string) []string {
		return []string{severity + ": The leads of SPD on main are " + total + " in all, live and earth side; they " + bound}
	}
	two := of(diagram.ClassII)
	lines := func(p *diagram.Protector) {
		p.Modes = [diagram.ModeCount]diagram.ModeRating{diagram.LineNeutral: {Connected: true}}
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"0.5\u00a0m", clinicSite(t).attach("main", two, leads(0.25, 0.25, 0.25)), nil},
		{"0.51\u00a0m", clinicSite(t).attach("main", two, leads(0.25, 0.25, 0.26)), long("warning", "510\u00a0mm", "should preferably be at most 500\u00a0mm")},
		{"1\u00a0m", clinicSite(t).attach("main", two, twisted, leads(0.5, 0.5, 0.5)), long("warning", "1\u00a0000\u00a0mm", "should preferably be at most 500\u00a0mm")},
		{"1.01\u00a0m", clinicSite(t).attach("main", two, twisted, leads(0.5, 0.5, 0.51)), long("error", "1\u00a0010\u00a0mm", "may be at most 1\u00a0000\u00a0mm")},
		{"the earth lead is not in use", clinicSite(t).attach("main", two, leads(0.25, 0.25, 0.9), lines), nil},
		{"the sum counts: a direct line", clinicSite(t).attach("main", two, leads(0, 0, 0.6)), long("warning", "600\u00a0mm", "should preferably be at most 500\u00a0mm")},
	})
	// 1.5 kV, leads of 0.6 and 0.7 m, 1 kV per metre: 2.8 kV (DIN VDE 0100-534,
	// from memory).
	up := func(p *diagram.Protector) {
		p.Rating = diagram.Up
		for mode := range p.Modes {
			p.Modes[mode].Level = 1500
		}
	}
	f := clinicSite(t).attach("main", two, separate, leads(0.7, 0.6, 0.6), up).found(analysis.SubjectLeads)[0]
	got := results(f.Working)
	if math.Abs(got["live and earth side"]-1.3) > 1e-9 || math.Abs(got["Up with its leads"]-2800) > 1e-9 {
		t.Errorf("working: got %v, want 1.3\u00a0m and 2800 V", got)
	}
	checkTexts(t, f, "The leads of SPD on main are 1\u00a0300\u00a0mm in all, live and earth side; they may be at most 1\u00a0000\u00a0mm",
		"they add about 1\u00a0300\u00a0V to what the protector itself lets through",
		"shorten them, route the circuit through its terminals, or add an earth bar beside it",
		"IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.8 (check your edition)")
	// Run together they have 0.21 µH/m each in place of 1 µH/m: 1.3 m add 273 V.
	f = clinicSite(t).attach("main", two, twisted, leads(0.7, 0.6, 0.6), up).one(analysis.SubjectLeads)
	if got := results(f.Working)["Up with its leads"]; math.Abs(got-1773) > 1e-9 || f.Why != "they add about 273\u00a0V to what the protector itself lets through; the hand rule, which takes leads as apart, counts about 1\u00a0300\u00a0V" {
		t.Errorf("twisted: got %g V and %q, want 1773 V", got, f.Why)
	}
	f = clinicSite(t).attach("main", two, leads(0.3, 0.3, 0.3), up).one(analysis.SubjectLeads)
	if want := "they add about 600\u00a0V to what the protector itself lets through, unless they are twisted or tied"; f.Why != want {
		t.Errorf("how they run not stated: got %q, want %q", f.Why, want)
	}
}

// 30 ft are 9.144 m: 354 in beyond six at 25 V per inch make 8850 V.
func TestLeadsWorthless(t *testing.T) {
	const what = "SPD on main has leads of 30\u00a0ft and does next to nothing"
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"30\u00a0ft", served(t).attach("main", leads(9.144, 9.144, 9.144)), []string{"error: " + what}},
		{"30\u00a0ft together", served(t).attach("main", twisted, leads(9.144, 9.144, 9.144)), []string{"warning: " + what}},
		{"29.9\u00a0ft together", served(t).attach("main", twisted, leads(9.11, 9.11, 9.11)), []string{"warning: The leads of SPD on main are 359\u00a0in long, and its VPR includes 6\u00a0in"}},
	})
	s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, ShortLead: "beside the top of the main"}).wire(5, "", "supply > main")
	f := s.attach("main", separate, leads(9.144, 9.144, 9.144)).one(analysis.SubjectLeads)
	checkTexts(t, f, what, "they add about 8\u00a0850\u00a0V to what the protector itself lets through",
		"mount it at the board, with leads as short as can be; room for short leads: beside the top of the main", "common practice, no source")
	if got := f.Working[0].Result; math.Abs(got-8850) > 1e-6 {
		t.Errorf("working: got %g V, want 8850", got)
	}
}

func TestLeadsApart(t *testing.T) {
	unrated := func(length float64) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = length, length, length
		}
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"12\u00a0in", served(t).attach("main", unrated(12*inch)), nil},
		{"26\u00a0in", served(t).attach("main", separate, unrated(26*inch)), []string{"note: The leads of SPD on main run apart over 26\u00a0in"}},
		{"26\u00a0in, how they run not stated", served(t).attach("main", unrated(26*inch)),
			[]string{"note: How the leads of SPD on main run over 26\u00a0in is not stated: they are taken to run apart"}},
		{"26\u00a0in, twisted", served(t).attach("main", unrated(26*inch), twisted), nil},
		{"one short lead", served(t).attach("main", unrated(26*inch), func(p *diagram.Protector) { p.Leads.Phase.Length = 0 }), nil},
		{"600\u00a0mm", clinicSite(t).attach("main", of(diagram.ClassII), unrated(0.24)), nil},
	})
	byUp := clinicSite(t).attach("main", of(diagram.ClassII), leads(0.5, 0.5, 0.5), func(p *diagram.Protector) { p.Rating = diagram.Up }).found(analysis.SubjectLeads)
	if got, want := byUp[1].Why, "twisted or tied together they add about 210\u00a0V rather than 1\u00a0000\u00a0V: the fields of the two cancel; the transient shows it, the hand rule does not count it"; got != want {
		t.Errorf("by Up: got %s, want %s", got, want)
	}
	s := served(t).attach("main", separate, unrated(26*inch))
	f := s.one(analysis.SubjectLeads)
	checkTexts(t, f, "The leads of SPD on main run apart over 26\u00a0in",
		"twisted or tied together they add about 78\u00a0V rather than 500\u00a0V: the fields of the two cancel; the transient shows it, the hand rule does not count it",
		"twist them, or tie them together over their whole length",
		"inductance of two touching wires, 0.21 µH/m each, computed; common practice, no source")
	got := results(f.Working)
	if math.Abs(got["leads run apart"]-500) > 1e-6 || math.Abs(got["leads run together"]-78) > 1e-6 {
		t.Errorf("working: got %v, want 500 and 78 V", got)
	}
	if left := s.mended(analysis.SubjectLeads); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
}

func TestLeadShape(t *testing.T) {
	shape := func(bends, coils int) func(*diagram.Protector) {
		return func(p *diagram.Protector) { p.Leads.Bends, p.Leads.Coils = bends, coils }
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"straight", served(t).attach("main", shape(0, 0)), nil},
		{"a bend", served(t).attach("main", shape(1, 0)), []string{"note: The leads of SPD on main have 1 sharp bend"}},
		{"a coil", served(t).attach("main", shape(0, 2)), []string{"warning: The leads of SPD on main have 2 turns of slack"}},
		{"both", served(t).attach("main", shape(3, 1)), []string{"warning: The leads of SPD on main have 1 turn of slack", "note: The leads of SPD on main have 3 sharp bends"}},
	})
	coiled := served(t).by(diagram.NEC2020).attach("main", shape(0, 1))
	if got, want := coiled.one(analysis.SubjectLeads).Source, "NFPA 70:2020 section 242.24 (check your edition)"; got != want {
		t.Errorf("source: got %s, want %s", got, want)
	}
	if left := coiled.mended(analysis.SubjectLeads); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
	if got, want := clinicSite(t).attach("main", of(diagram.ClassII), shape(1, 0)).one(analysis.SubjectLeads).Source, "common practice, no source"; got != want {
		t.Errorf("source: got %s, want %s", got, want)
	}
}

func TestEarthLeadLongest(t *testing.T) {
	unrated := func(phase, neutral, earth float64) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = phase*inch, neutral*inch, earth*inch
		}
	}
	between := func(p *diagram.Protector) {
		p.Modes = [diagram.ModeCount]diagram.ModeRating{diagram.LineNeutral: {Connected: true}}
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"longest", served(t).attach("main", unrated(6, 6, 10)), []string{"note: The earth lead of SPD on main is the longest, 10\u00a0in against 6\u00a0in"}},
		{"by an inch", served(t).attach("main", unrated(6, 6, 7)), nil},
		{"the neutral is as long", served(t).attach("main", unrated(6, 10, 10)), nil},
		{"not in use", served(t).attach("main", unrated(6, 6, 10), between), nil},
		{"a line on the bus itself", served(t).attach("main", unrated(0, 6, 10)), nil},
	})
	checkTexts(t, served(t).attach("main", unrated(6, 6, 10)).one(analysis.SubjectLeads),
		"The earth lead of SPD on main is the longest, 10\u00a0in against 6\u00a0in",
		"the surge current of all lines and of the neutral flows through it, so its length counts in every mode to earth",
		"mount it nearer to the earth bar: if one lead must be longer, let it be another", "Kirchhoff's current law")
}

func TestLeadInSteel(t *testing.T) {
	steel := func(bonded bool) func(*diagram.Protector) {
		return func(p *diagram.Protector) { p.Leads.Steel, p.Leads.SteelBonded = true, bonded }
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"bonded", served(t).attach("main", steel(true)), nil},
		{"not bonded", served(t).attach("main", steel(false)), []string{"warning: The earth lead of SPD on main runs in a steel raceway that is not bonded at both ends"}},
	})
	s := served(t).by(diagram.NEC2020).attach("main", steel(false))
	if got, want := s.one(analysis.SubjectLeads).Source, "NFPA 70:2020 section 242.32 (check your edition); NFPA 70 section 250.64(E) (from memory; check your edition)"; got != want {
		t.Errorf("source: got %s, want %s", got, want)
	}
	if left := s.mended(analysis.SubjectLeads); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
}

func TestLeadSize(t *testing.T) {
	sized := func(kind diagram.Type, live, earth float64) func(*diagram.Protector) {
		return func(p *diagram.Protector) {
			p.Type, p.Iimp = kind, 0
			p.Leads.Phase, p.Leads.Neutral = diagram.Lead{Length: 0.1, Area: live}, diagram.Lead{Length: 0.1, Area: live}
			p.Leads.Earth = diagram.Lead{Length: 0.1, Area: earth}
		}
	}
	const mm2 = 1e-6
	awg := unit.AWGArea
	iec := func(side, has, least string) string {
		verb := map[string]string{"earth lead": "has", "live leads": "have"}[side]
		return "warning: The " + side + " of SPD on main " + verb + " " + has + " mm², and at least " + least + " mm² of copper is required"
	}
	checkRows(t, analysis.SubjectLeads, []siteRow{
		{"14 AWG", served(t).attach("main", sized(diagram.Type2, awg(14), awg(14))), nil},
		{"2.08 mm², as a table rounds it", served(t).attach("main", sized(diagram.Type2, 2.08*mm2, 2.08*mm2)), nil},
		{"16 AWG", served(t).attach("main", sized(diagram.Type2, awg(16), awg(14))), []string{"error: The leads of SPD on main have 16 AWG, and at least 14 AWG of copper is required"}},
		{"not known", served(t).attach("main", sized(diagram.Type2, 0, 0)), nil},
		{"on the bus itself", served(t).attach("main", sized(diagram.Type2, awg(16), awg(16)), inches(0)), nil},
		{"class I, just right", clinicSite(t).attach("main", sized(diagram.ClassI, 6*mm2, 16*mm2)), nil},
		{"class I, one size less", clinicSite(t).attach("main", sized(diagram.ClassI, 4*mm2, 10*mm2)), []string{iec("earth lead", "10", "16"), iec("live leads", "4", "6")}},
		{"class II, just right", clinicSite(t).attach("main", sized(diagram.ClassII, 2.5*mm2, 6*mm2)), nil},
		{"class II, one size less", clinicSite(t).attach("main", sized(diagram.ClassII, 1.5*mm2, 4*mm2)), []string{iec("earth lead", "4", "6"), iec("live leads", "1.5", "2.5")}},
		{"class III", clinicSite(t).attach("main", of(diagram.ClassII)).attach("lamp", sized(diagram.ClassIII, 1*mm2, 1*mm2)), nil},
	})
	s := served(t).by(diagram.NEC2017).attach("main", sized(diagram.Type2, awg(16), awg(18)))
	f := s.one(analysis.SubjectLeads)
	checkTexts(t, f, "The leads of SPD on main have 18 AWG, and at least 14 AWG of copper is required",
		"a thin lead is torn or melts under the surge or the fault that follows",
		"use at least 14 AWG of copper, or 12 AWG of aluminium", "NFPA 70:2017 section 285.26 (check your edition)")
	if got := results(f.Working); math.Abs(got["size of the leads"]-0.823) > 0.001 || math.Abs(got["least size"]-2.081) > 0.001 {
		t.Errorf("working: got %v, want 0.823 and 2.081 mm² (ASTM B258)", got)
	}
	if left := s.mended(analysis.SubjectLeads); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
	if p, _ := s.doc.Protector("protector-1"); p.Leads.Phase.Area != awg(14) || p.Leads.Earth.Area != awg(14) {
		t.Errorf("mend: got %v", p.Leads)
	}
}
