package conductor

import "fmt"

// none says why no conductor of the profile serves.
func (q question) none(list []candidate) error {
	for _, t := range ampacityTests() {
		if q.first(list, 0, t) < 0 {
			f, _ := q.figures(list[len(list)-1], nil)
			needs, has := q.needs(t, f)
			return Beyond{fmt.Sprintf("no %s conductor up to %v meets the test %q: it asks for %v and they offer %v at most", q.Material, list[len(list)-1], t, needs, has)}
		}
	}
	return Beyond{fmt.Sprintf("no %s conductor up to %v meets all ampacity tests together", q.Material, list[len(list)-1])}
}
