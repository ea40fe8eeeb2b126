package rule_test

import (
	"testing"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// Another protector may have what the one that is there has, but nothing else:
// whatever one for too low a voltage is replaced for, no one for too high a
// voltage takes its place.
func TestAnotherProtectorBringsNothingNew(t *testing.T) {
	s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main").
		attach("main", func(p *diagram.Protector) {
			p.SCCR, p.System = 5e3, diagram.System{Wiring: diagram.Wye, Voltage: 120, Neutral: true}
		}).
		flows("main", analysis.Fault{LineLine: 10e3})
	if f := s.one(analysis.SubjectVoltage); f.Rule != "voltage.too low" {
		t.Fatalf("the one that is there: %s", f.Rule)
	}
	choices := s.one(analysis.SubjectFault).Mend.Choices(nil)
	if len(choices) == 0 {
		t.Fatal("nothing to choose")
	}
	try := rule.CheckAt(s.input(), "main")
	for _, c := range choices {
		for _, f := range try(c.Entry.Protector) {
			if f.Rule == "voltage.too high" {
				t.Errorf("%s: %s", c.Entry.Protector.ID, f.What)
			}
		}
	}
}
