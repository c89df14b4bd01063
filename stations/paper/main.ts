import '../kit/start.ts';
import './paper.css';
import { mount } from 'svelte';
import App from './App.svelte';

mount(App, { target: document.querySelector('#app')! });
