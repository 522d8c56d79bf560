package nec

import "branchwork/loads/steps"

// ref is the key of the standard in references.toml.
const ref = "nfpa70"

// edition is one edition with what it does differently from the others.
type edition struct {
	year string
	code // clause numbers that moved
}

// code is the clauses whose numbers differ between editions.
type code struct {
	permitted, lighting, heating, outlet, neutral, motorDevice, measured string
}

// editions lists the editions carried, oldest first.
func editions() []edition {
	base := code{permitted: "210.23(A)", lighting: "210.21(A), 210.23(B)", heating: "424.3(B)", outlet: "220.14(I)",
		neutral: "310.15(B)(5)", motorDevice: "430.52(C)(1), Table 430.52", measured: "220.87"}
	c2020 := base
	c2020.heating, c2020.neutral = "424.4(B)", "310.15(E)"
	c2023 := c2020
	c2023.motorDevice = "430.52(C)(1), Table 430.52(C)(1)"
	c2023.permitted, c2023.lighting = "210.23(B)", "210.21(A), 210.23(C)" // (A) became the 10 A circuit
	c2026 := c2023
	c2026.measured = "120.87"
	c2026.outlet = "120.14(I)" // load calculations moved to Article 120 with their suffixes
	return []edition{{"2017", base}, {"2020", c2020}, {"2023", c2023}, {"2026", c2026}}
}

// since reports whether the edition is of that year or later.
func (e edition) since(year string) bool { return e.year >= year }

// cite returns a clause of the edition whose substance was checked that way. The
// clauses of 2026 count as from memory; those that were seen there are cited
// with seenIn2026.
func (e edition) cite(at string, how steps.How) steps.Cite {
	if e.since("2026") {
		how = steps.Recalled
	}
	return steps.Cite{Ref: ref, Edition: e.year, At: at, How: how}
}

// recalledIn2017 returns a clause whose number in 2017 is from memory.
func (e edition) recalledIn2017(at string) steps.Cite {
	if e.year == "2017" {
		return e.cite(at, steps.Recalled)
	}
	return e.cite(at, steps.Seen)
}

// seenIn2026 returns a clause that was seen in a source for 2026 too.
func (e edition) seenIn2026(at string) steps.Cite {
	return steps.Cite{Ref: ref, Edition: e.year, At: at, How: steps.Seen}
}
