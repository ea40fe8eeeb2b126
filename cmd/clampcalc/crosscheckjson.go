package main

// checksJSON is what crosscheck --json prints.
type checksJSON struct {
	Plan   string          `json:"plan"`
	Within bool            `json:"within"`
	Cases  []checkCaseJSON `json:"cases"`
}

type checkCaseJSON struct {
	Name     string        `json:"name"`
	ID       string        `json:"id"`
	Measures []measureJSON `json:"measures"`
}

type measureJSON struct {
	Name       string   `json:"name"`
	Kind       string   `json:"kind"`
	Ours       float64  `json:"ours"`
	Ngspice    float64  `json:"ngspice"`
	Difference float64  `json:"difference"`
	Percent    *float64 `json:"percent"`
	Allowed    *float64 `json:"allowed"`
	Within     *bool    `json:"within"`
}

func checksJSONOf(s sheet, cases []checkedCase) checksJSON {
	out := checksJSON{Plan: s.doc.NameOf(s.plan.ID), Within: within(cases), Cases: []checkCaseJSON{}}
	for _, c := range cases {
		row := checkCaseJSON{Name: surgeName(s, c.Surge), ID: string(c.Surge.ID), Measures: []measureJSON{}}
		for _, x := range c.comparisons {
			row.Measures = append(row.Measures, measureOf(x))
		}
		out.Cases = append(out.Cases, row)
	}
	return out
}

func measureOf(x comparison) measureJSON {
	out := measureJSON{
		Name: x.Name, Kind: string(x.Kind), Ours: sixDigits(x.ours), Ngspice: sixDigits(x.theirs), Difference: sixDigits(x.difference()),
	}
	if percent, ok := x.percent(); ok {
		percent = sixDigits(percent)
		out.Percent = &percent
	}
	if allowed, ok := x.allowed(); ok {
		allowed, agrees := sixDigits(allowed), x.within()
		out.Allowed, out.Within = &allowed, &agrees
	}
	return out
}
