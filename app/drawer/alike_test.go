package drawer

import (
	"testing"

	"clampline/analysis"
)

func TestAlike(t *testing.T) {
	finding := func(subject, kind, name string) analysis.Finding {
		return analysis.Finding{Subject: subject, Mend: analysis.NewMend(kind, name, change)}
	}
	first := finding("leads", "twist the leads of …", "SPD 1")
	for _, row := range []struct {
		name  string
		other analysis.Finding
		want  bool
	}{
		{"the same change elsewhere", finding("leads", "twist the leads of …", "SPD 2"), true},
		{"another change", finding("leads", "shorten the leads of …", "SPD 2"), false},
		{"on another subject", finding("breaker", "twist the leads of …", "SPD 2"), false},
		{"no change", analysis.Finding{Subject: "leads"}, false},
	} {
		if got := len(alike([]analysis.Finding{first, row.other}, first)) == 2; got != row.want {
			t.Errorf("%s: alike: %t", row.name, got)
		}
	}
	if got := first.Mend.Label; got != "twist the leads of SPD 1" {
		t.Errorf("got the label %q", got)
	}
	if got := alike([]analysis.Finding{{Subject: "leads"}}, analysis.Finding{Subject: "leads"}); got != nil {
		t.Errorf("what nothing mends is like %v", got)
	}
}
