package checks

import (
	"strings"

	"branchwork/codes"
	"branchwork/loads/units"
)

// StandardRating asks whether a breaker's rating is one of the code's list.
func StandardRating(f *codes.Facts) codes.Verdict {
	d := f.Book().Devices
	breaker := codes.Of[units.Current](f, codes.BreakerAmps)
	v := codes.Whether(d.Standard(breaker))
	v.Actual = units.Any{Value: float64(breaker), Unit: "A"}
	var near []string
	if down, ok := d.Down(breaker); ok {
		near = append(near, down.String())
	}
	if up, ok := d.Next(breaker); ok {
		near = append(near, up.String())
	}
	return v.Saying("read the rating on the handle again", "its breaker is given as %s; beside it the code's list has %s", breaker, strings.Join(near, " and "))
}
