package document

// Finding is a rule that is broken, or that cannot be told.
type Finding struct {
	Rule     string   `json:"rule"`
	Title    string   `json:"title"`
	Severity string   `json:"severity" jsonschema:"enum=violation,enum=warning,enum=advice"`
	Verdict  string   `json:"verdict" jsonschema:"enum=broken,enum=cannot tell"`
	Clause   string   `json:"clause"`
	Subject  string   `json:"subject" jsonschema_description:"key path in the inventory"`
	Message  string   `json:"message"`
	Remedy   string   `json:"remedy"`
	Actual   *float64 `json:"actual,omitempty"`
	Limit    *float64 `json:"limit,omitempty"`
	Unit     string   `json:"unit,omitempty"`
	Missing  []string `json:"missing,omitempty" jsonschema_description:"facts that would settle it"`
	Also     []string `json:"also,omitempty" jsonschema_description:"further rules that the same missing facts leave open"`
	Line     int      `json:"line,omitempty" jsonschema_description:"in the inventory file"`
}

// Assumption is a value that the file does not give.
type Assumption struct {
	Subject string `json:"subject"`
	Value   string `json:"value"`
	Why     string `json:"why"`
	Source  string `json:"source"`
}

// Verdict counts the findings. ExitStatus is what the command ends with.
type Verdict struct {
	ExitStatus int    `json:"exit_status" jsonschema:"enum=0,enum=1"`
	Violations int    `json:"violations" jsonschema_description:"rules that are broken"`
	Practice   int    `json:"practice_violations" jsonschema_description:"of them rules of good practice, without a clause of the code"`
	CannotTell int    `json:"cannot_tell" jsonschema_description:"rules of the code that a missing fact leaves open; they count as not met"`
	Warnings   int    `json:"warnings"`
	Advice     int    `json:"advice"`
	Says       string `json:"says"`
}

// Checked says what was looked at, and what was not.
type Checked struct {
	CodeTitle  string   `json:"code_title"`
	Rules      int      `json:"rules"`
	Practice   int      `json:"practice_rules" jsonschema_description:"of them rules of good practice, without a clause of the code"`
	NotCovered []string `json:"not_covered"`
	Caution    string   `json:"caution"`
}
