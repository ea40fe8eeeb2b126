package drawer

import (
	"testing"

	"clampline/analysis"
)

func TestCount(t *testing.T) {
	if got, want := Count(sample()), (Counts{analysis.Remark: 1, analysis.Warning: 3, analysis.Error: 1}); got != want {
		t.Errorf("got %v, want %v", got, want)
	}
	for _, row := range []struct {
		counts Counts
		want   string
	}{
		{Counts{}, ""},
		{Counts{analysis.Error: 1, analysis.Remark: 2}, "1 error · 2 notes"},
		{Counts{analysis.Error: 2, analysis.Warning: 1, analysis.Remark: 1}, "2 errors · 1 warning · 1 note"},
	} {
		if got := row.counts.String(); got != row.want {
			t.Errorf("%v: got %q, want %q", row.counts, got, row.want)
		}
	}
}
