package formula

// Run is what the function does, in one of the forms that the table uses.
func (f Function) Run() any { return f.run }

// Names is what the formula mentions.
func (f *Formula) Names() Names { return f.names }
