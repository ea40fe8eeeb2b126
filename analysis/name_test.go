package analysis

import "testing"

func TestList(t *testing.T) {
	for _, row := range []struct {
		names []string
		want  string
	}{
		{nil, ""}, {[]string{"A"}, "A"}, {[]string{"A", "B"}, "A and B"}, {[]string{"A", "B", "C"}, "A, B and C"},
		{[]string{"A", "B", "C", "D", "E", "F"}, "A, B, C, D, E and F"}, {[]string{"A", "B", "C", "D", "E", "F", "G"}, "A, B, C, D, E and 2 more"},
		{[]string{"A", "B", "C", "D", "E", "F", "G", "H", "I"}, "A, B, C, D, E and 4 more"},
	} {
		before := len(row.names)
		if got := List(row.names); got != row.want {
			t.Errorf("%d names: got %q, want %q", before, got, row.want)
		}
	}
}
