package draw

// Statics draws the statics sheet: nothing without an assessment.
func (j *Job) Statics() []*Page { return nil }
