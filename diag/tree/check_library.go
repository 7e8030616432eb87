package tree

// checkLibrary checks what only shows when everything is together.
func (b *builder) checkLibrary() {
}
