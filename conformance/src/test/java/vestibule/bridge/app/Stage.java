package vestibule.bridge.app;

/** Where a program is when it is killed. */
enum Stage {
    /** The service starts: locks, migrations, what an earlier one left. */
    STARTING(Command.RUN),
    /** The command that takes a card in, at any moment of it. */
    TAKING_IN_BY_COMMAND(Command.INTAKE),
    /** Any moment of the service after its start. */
    SERVING(Command.RUN),
    /** A photograph has just been recorded. */
    TAKEN_IN(Command.RUN),
    /** An object has arrived, and the answer is not out yet. */
    STORED(Command.RUN),
    /** The archive has been asked to take responsibility, and has not answered. */
    ASKED_TO_COMMIT(Command.RUN),
    /** A commitment report has just been recorded. */
    REPORTED(Command.RUN);

    enum Command {
        INTAKE,
        RUN
    }

    private final Command command;

    Stage(Command command) {
        this.command = command;
    }

    Command command() {
        return command;
    }
}
