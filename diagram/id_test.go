package diagram

import (
	"strings"
	"testing"
)

func TestIDValid(t *testing.T) {
	for id, want := range map[ID]bool{
		"panel-3": true, "a": true, "z": true, "A": true, "Z": true, "0": true, "9": true, "a_b.c-d": true, ID(strings.Repeat("x", 64)): true,
		"": false, ID(strings.Repeat("x", 65)): false, "a b": false, "ä": false, "a/b": false, "a:b": false, "a@b": false, "a[b": false, "a`b": false, "a{b": false, "a\n": false,
	} {
		if got := id.Valid(); got != want {
			t.Errorf("%q: got %v", string(id), got)
		}
	}
}

func TestCompareID(t *testing.T) {
	for _, row := range []struct{ before, after ID }{{"panel-2", "panel-10"}, {"panel", "panel0"}, {"a9", "b1"}, {"panel-02", "panel-2"}, {"p99999999999999999999", "p99999999999999999999x"}} {
		if CompareID(row.before, row.after) >= 0 || CompareID(row.after, row.before) <= 0 {
			t.Errorf("%s does not stand before %s", row.before, row.after)
		}
	}
}
