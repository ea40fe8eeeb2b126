package unit

import "testing"

func TestMust(t *testing.T) {
	long := "a word and another and so many more that no line has room for it"
	for _, row := range []struct {
		must Must
		want string
	}{
		{Must{Field: "Length", Wanted: Wanted(Length, NorthAmerican), Such: Such(Length, NorthAmerican), Typed: "abc"}, `Length must be a number with ft, in or m, such as 45 ft; “abc” is not`},
		{Must{Field: "Length", Wanted: Wanted(Length, IEC), Such: Such(Length, IEC), Typed: "abc"}, `Length must be a number with m, cm or mm, such as 15 m; “abc” is not`},
		{Must{Field: "Conductor", Wanted: Wanted(Area, IEC), Such: Such(Area, IEC), Typed: "thick"}, `Conductor must be a size in mm², AWG or kcmil, such as 35 mm²; “thick” is not`},
		{Must{Field: "Spaces", Wanted: Wanted(Count, IEC), Such: Such(Count, IEC), Typed: "4.5"}, `Spaces must be a whole number, such as 3; “4.5” is not`},
		{Must{Field: "Poles", Wanted: "a whole number from 0 to 4", Typed: long}, `Poles must be a whole number from 0 to 4; “a word and another and so many more that…” is not`},
		{Must{Field: "Length", Wanted: Wanted(Length, IEC), Such: Such(Length, IEC), None: true}, `Length must be a number with m, cm or mm, such as 15 m; type 0 if there is none`},
		{Must{Field: "Wave speed", Wanted: "10 m/µs to 299.8 m/µs"}, "Wave speed must be 10 m/µs to 299.8 m/µs"},
	} {
		if got := row.must.Error(); got != row.want {
			t.Errorf("got %s, want %s", got, row.want)
		}
	}
}
