// What Python has open for the class desk, by the handle that Python gave. Python that was started again has nothing open
// any more; what it has lost is then opened again from what the page keeps.
export class Handle {
  // again: an async function that opens it again and gives the new handle
  constructor(id, again) {
    this.id = id;
    this.again = again;
  }
}

// Python's answer to a call, whose arguments may be handles
export async function askWith(python, call, args) {
  const ask = () => python.ask(call, ...args.map((arg) => (arg instanceof Handle ? arg.id : arg)));
  const answer = await ask();
  if (!answer.lost) return answer;
  for (const arg of args) if (arg instanceof Handle) arg.id = await arg.again();
  return ask();
}
