/** The faults themselves are tested here: each must do its harm, and the judge must see every kind of it. */
package vestibule.conformance.fault;
