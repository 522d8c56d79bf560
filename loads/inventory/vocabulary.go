package inventory

// Vocabulary is what a file may name that a code of practice decides. A list
// that is empty is not checked.
type Vocabulary struct {
	Codes       []string // "nec-2023"
	Sizes       []string // "12 AWG", ascending area
	Materials   []string
	Insulations []string
	Raceways    []string
	Receptacles []string

	Spare bool // a circuit may feed nothing; no file of a user's may have one
}
