package drawer

import (
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

func TestAlike(t *testing.T) {
	doc := house(t)
	finding := func(subject, label string, records ...diagram.ID) analysis.Finding {
		return analysis.Finding{Subject: subject, Records: records, Mend: analysis.Mend{Label: label, Apply: change}}
	}
	first := finding("leads", "twist the leads of SPD 1", "protector-1", "panel-1")
	for _, row := range []struct {
		name  string
		other analysis.Finding
		want  bool
	}{
		{"the same change elsewhere", finding("leads", "twist the leads of SPD 2", "protector-2", "load-1"), true},
		{"another change", finding("leads", "shorten the leads of SPD 2", "protector-2"), false},
		{"on another subject", finding("breaker", "twist the leads of SPD 2", "protector-2"), false},
		{"the name of what is not its record", finding("leads", "twist the leads of SPD 2", "load-1"), false},
		{"no change", analysis.Finding{Subject: "leads"}, false},
	} {
		if got := len(alike([]analysis.Finding{first, row.other}, first, doc)) == 2; got != row.want {
			t.Errorf("%s: alike: %t", row.name, got)
		}
	}
	if got := mendKind(first, doc); got != "twist the leads of …" {
		t.Errorf("got %q", got)
	}
	if got := alike([]analysis.Finding{{Subject: "leads"}}, analysis.Finding{Subject: "leads"}, doc); got != nil {
		t.Errorf("what nothing mends is like %v", got)
	}
}
