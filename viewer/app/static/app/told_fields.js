// Fields of the form as the server tells them, by where they stand in the scene.

export const fieldOf = ({ form }, ...path) => form.sections.flatMap(({ fields }) => fields).find((one) => one.path.join() === path.join());

export const valueOf = (state, ...path) => fieldOf(state, ...path)?.value;
